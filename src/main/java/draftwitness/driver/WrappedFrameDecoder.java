package draftwitness.driver;

import draftwitness.reading.Chunk;
import org.jspecify.annotations.Nullable;

/**
 * Reads binary messages that are packed by SLIP or COBS. One owner thread.
 *
 * <p>After opening, and after a message without end, everything through the first delimiter is thrown away. A message
 * with wrong packing, sync, length or check is dropped whole; the next delimiter ends the damage.
 */
final class WrappedFrameDecoder implements Decoder {
    private final FrameLayout layout;
    private final Wrapping wrapping;
    private final byte[] buffer;
    private final byte[] message;
    private final Staged staged = new Staged();
    private boolean seeking = true;
    private int length;
    private int sought;

    WrappedFrameDecoder(FrameLayout layout, Wrapping wrapping) {
        this.layout = layout;
        this.wrapping = wrapping;
        this.buffer = new byte[2 * layout.length.longest() + 2];
        this.message = new byte[buffer.length];
    }

    @Override
    public void decode(Chunk chunk, DecodeSink sink) {
        for (int i = 0; i < chunk.size(); i++) {
            boolean ends = chunk.at(i) == wrapping.delimiter();
            if (seeking) {
                seek(ends, sink);
            } else if (ends) {
                finish(chunk.arrivalNanos(), sink);
            } else {
                collect(chunk.at(i), sink);
            }
        }
    }

    private void seek(boolean ends, DecodeSink sink) {
        sought++;
        seeking = !ends;
        if (ends || sought >= buffer.length) {
            sink.fault(Fault.PARTIAL, sought);
            sought = 0;
        }
    }

    private void collect(int b, DecodeSink sink) {
        if (length == buffer.length) {
            sink.fault(Fault.TOO_LONG, length + 1);
            length = 0;
            seeking = true;
            return;
        }
        buffer[length++] = (byte) b;
    }

    private void finish(long arrivalNanos, DecodeSink sink) {
        int bytes = length + 1;
        if (length == 0) {
            sink.filler(bytes);
            return;
        }
        int size = wrapping.unwrap(buffer, length, message);
        length = 0;
        staged.clear();
        Fault fault = judge(size);
        if (fault == null) {
            staged.release(bytes, arrivalNanos, sink);
        } else {
            sink.fault(fault, bytes);
        }
    }

    private @Nullable Fault judge(int size) {
        if (size < 0) {
            return Fault.GARBLED;
        }
        if (size < layout.sync.length || !layout.mayBegin(message, 0, size)) {
            return Fault.NOT_A_READING;
        }
        if (layout.length.of(message, 0, size) != size) {
            return Fault.PARTIAL;
        }
        Fault fault = layout.check(message, size);
        return fault == null ? layout.stage(message, size, staged) : fault;
    }

    @Override
    public void restart(long nowNanos) {
        seeking = true;
        length = 0;
        sought = 0;
    }

    @Override
    public void restartInStep(long nowNanos) {
        restart(nowNanos);
        seeking = false;
    }

    @Override
    public int held() {
        return length + sought;
    }
}
