package draftwitness.driver;

import draftwitness.reading.Chunk;
import java.util.Arrays;

/**
 * Finds binary messages in a byte stream by their sync bytes, length and check. One owner thread.
 *
 * <p>How it works: the buffer's first byte is always the candidate for the start of a message. If the bytes cannot be
 * one - wrong sync, impossible length, wrong check - the first byte alone is given up and the next one becomes the
 * candidate, so that a message hidden behind a false start is still found. Where nothing in the message proves that it
 * is whole (no checksum, no tail), it counts only once the next message's sync follows it directly: a lost byte would
 * otherwise shift every number after it.
 */
final class FrameDecoder implements Decoder {
    private final FrameLayout layout;
    private final byte[] buffer;
    private final long[] arrivals;
    private final Staged staged = new Staged();
    private int held;
    private int noise;

    FrameDecoder(FrameLayout layout) {
        this.layout = layout;
        this.buffer = new byte[layout.length.longest() + layout.sync.length];
        this.arrivals = new long[buffer.length];
    }

    @Override
    public void decode(Chunk chunk, DecodeSink sink) {
        for (int i = 0; i < chunk.size(); i++) {
            buffer[held] = (byte) chunk.at(i);
            arrivals[held] = chunk.arrivalNanos();
            held++;
            while (held > 0 && step(sink)) {
                // each step gives up or completes at least one byte
            }
        }
    }

    /** Judges the first bytes; true if some were used up and the rest must be judged again. */
    private boolean step(DecodeSink sink) {
        if (!layout.mayBegin(buffer, 0, held)) {
            return skip(Fault.NOISE, sink);
        }
        int length = layout.length.of(buffer, 0, held);
        if (length == FrameLayout.Length.IMPOSSIBLE) {
            return skip(Fault.NOISE, sink);
        }
        if (length == FrameLayout.Length.UNKNOWN || held < length) {
            return false;
        }
        Fault fault = layout.check(buffer, length);
        if (fault == null && !layout.provesItself()) {
            int beyond = held - length;
            if (!layout.mayBegin(buffer, length, beyond)) {
                return skip(Fault.PARTIAL, sink);
            }
            if (beyond < layout.sync.length) {
                return false;
            }
        }
        if (fault == null) {
            staged.clear();
            fault = layout.stage(buffer, length, staged);
        }
        return fault == null ? complete(length, sink) : skip(fault, sink);
    }

    private boolean complete(int length, DecodeSink sink) {
        report(sink);
        if (sink.wantsParts()) {
            layout.tellParts(buffer, length, sink);
        }
        staged.release(length, arrivals[length - 1], sink);
        drop(length);
        return true;
    }

    /** Gives up the first byte; runs of noise are reported as one. */
    private boolean skip(Fault fault, DecodeSink sink) {
        if (fault == Fault.NOISE || layout.sync.length == 0) {
            noise++;
            if (noise >= buffer.length) {
                report(sink);
            }
        } else {
            report(sink);
            sink.fault(fault, 1);
        }
        drop(1);
        return true;
    }

    private void report(DecodeSink sink) {
        if (noise > 0) {
            sink.fault(Fault.NOISE, noise);
            noise = 0;
        }
    }

    private void drop(int count) {
        System.arraycopy(buffer, count, buffer, 0, held - count);
        System.arraycopy(arrivals, count, arrivals, 0, held - count);
        held -= count;
    }

    @Override
    public void restart(long nowNanos) {
        held = 0;
        noise = 0;
        Arrays.fill(buffer, (byte) 0);
    }

    @Override
    public int held() {
        return held + noise;
    }
}
