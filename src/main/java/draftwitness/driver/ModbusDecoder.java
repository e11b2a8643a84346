package draftwitness.driver;

import draftwitness.reading.Chunk;
import java.util.List;
import java.util.Optional;

/**
 * A Modbus RTU master as a pure state machine: it says which bytes to send and when, and judges what comes back. One
 * owner thread.
 *
 * <p>How it works: there is never more than one question under way.
 *
 * <ul>
 *   <li><em>quiet</em>: after opening and after any failure; all bytes are thrown away until none has come for the
 *       quiet time, so that a late answer does not become the next question's answer.
 *   <li><em>idle</em>: waiting for the next question's time. A byte now is stray and leads to quiet.
 *   <li><em>waiting</em>: collecting the answer. It is judged once it is long enough and the line has been silent for
 *       3.5 characters, so that a longer frame is never cut to a shorter one. Too short, it may go on until the
 *       time-out: an operating system hands bytes over in pieces, and a pause within a frame proves nothing here.
 * </ul>
 *
 * <p>The protocol has no mark that ties an answer to its question. An answer that comes later than time-out and quiet
 * time together, just when the same registers are asked for again, cannot be told from the right one.
 */
final class ModbusDecoder implements Decoder {

    /** Ceiling of a frame on a serial line: 256 bytes, section 2.5.1 of the serial line guide. */
    private static final int CEILING = 256;

    private enum State {
        NEW,
        QUIET,
        IDLE,
        WAITING
    }

    private final List<ModbusRequest> requests;
    private final AskPace pace;
    private final long silence;
    private final byte[] buffer = new byte[CEILING];
    private final Staged staged = new Staged();
    private State state = State.NEW;
    private int length;
    private int current;
    /** End of quiet, time of the next question, or deadline of the answer. */
    private long until;

    private long roundStart;
    private long lastByte;

    /** @param silence 3.5 character times in nanoseconds, see {@link #silenceNanos} */
    ModbusDecoder(List<ModbusRequest> requests, AskPace pace, long silence) {
        this.requests = List.copyOf(requests);
        this.pace = pace;
        this.silence = silence;
    }

    /**
     * The silence that ends a frame: 3.5 characters of 11 bits, and 1.750 ms above 19200 baud ("MODBUS over Serial Line
     * Specification and Implementation Guide V1.02", section 2.5.1.1).
     */
    static long silenceNanos(int baud) {
        return baud > 19200 ? 1_750_000 : Math.round(3.5 * 11 * 1e9 / baud);
    }

    @Override
    public void decode(Chunk chunk, DecodeSink sink) {
        advance(chunk.arrivalNanos(), sink);
        if (state != State.WAITING) {
            sink.fault(Fault.STRAY_ANSWER, chunk.size());
            goQuiet(chunk.arrivalNanos());
            return;
        }
        lastByte = chunk.arrivalNanos();
        if (length + chunk.size() > CEILING) {
            sink.fault(Fault.TOO_LONG, length + chunk.size());
            length = 0;
            nextRequest();
            goQuiet(lastByte);
            return;
        }
        for (int i = 0; i < chunk.size(); i++) {
            buffer[length++] = (byte) chunk.at(i);
        }
    }

    /** Lets what time alone decides happen: an answer ended by silence, a time-out, the end of quiet. */
    private void advance(long now, DecodeSink sink) {
        if (state == State.NEW) {
            goQuiet(now);
        }
        if (state == State.WAITING && isComplete()) {
            if (now - lastByte >= silence) {
                judge(sink);
            }
        } else if (state == State.WAITING && now - until >= 0) {
            sink.fault(Fault.NO_ANSWER, 0);
            if (length > 0) {
                sink.fault(Fault.PARTIAL, length);
            }
            length = 0;
            nextRequest();
            goQuiet(now);
        } else if (state == State.QUIET && now - until >= 0) {
            state = State.IDLE;
            until = now;
        }
    }

    private boolean isComplete() {
        return length >= requests.get(current).expected(buffer, length);
    }

    private void judge(DecodeSink sink) {
        staged.clear();
        Fault fault = requests.get(current).read(buffer, length, staged);
        int bytes = length;
        length = 0;
        nextRequest();
        if (fault == null) {
            staged.release(bytes, lastByte, sink);
        } else {
            sink.fault(fault, bytes);
        }
        if (fault == null || fault == Fault.REFUSED) {
            state = State.IDLE;
            until = current == 0 ? Math.max(lastByte + silence, roundStart + pace.period()) : lastByte + silence;
        } else {
            goQuiet(lastByte);
        }
    }

    private void nextRequest() {
        current = (current + 1) % requests.size();
    }

    private void goQuiet(long from) {
        state = State.QUIET;
        until = from + pace.quiet();
    }

    @Override
    public void restart(long nowNanos) {
        length = 0;
        current = 0;
        goQuiet(nowNanos);
    }

    /**
     * The answer to a question of ours begins in step anyway, and is not to be thrown away for it; everything else must
     * wait for quiet.
     */
    @Override
    public void restartInStep(long nowNanos) {
        if (state != State.WAITING || length > 0) {
            restart(nowNanos);
        }
    }

    @Override
    public int held() {
        return length;
    }

    @Override
    public Optional<byte[]> due(long nowNanos, DecodeSink sink) {
        advance(nowNanos, sink);
        if (state != State.IDLE || nowNanos - until < 0) {
            return Optional.empty();
        }
        if (current == 0) {
            roundStart = nowNanos;
        }
        state = State.WAITING;
        until = nowNanos + pace.timeout();
        return Optional.of(requests.get(current).bytes());
    }

    @Override
    public long nextDueNanos() {
        if (state == State.NEW) {
            return Long.MIN_VALUE / 2;
        }
        return state == State.WAITING && isComplete() ? lastByte + silence : until;
    }
}
