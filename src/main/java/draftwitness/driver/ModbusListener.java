package draftwitness.driver;

import draftwitness.reading.Chunk;
import java.util.Arrays;
import java.util.List;

/**
 * Finds answers to some Modbus RTU questions in bytes that were caught on a line, without asking. One owner thread.
 *
 * <p>For looking only: without silences between frames, an answer is known by unit, function, length and CRC alone. The
 * questions themselves are passed over.
 */
final class ModbusListener implements Decoder {
    private static final int CEILING = 256;
    private static final int QUESTION = 8;

    private final List<ModbusRequest> requests;
    private final byte[] buffer = new byte[CEILING];
    private final Staged staged = new Staged();
    private int held;
    private int noise;

    ModbusListener(List<ModbusRequest> requests) {
        this.requests = List.copyOf(requests);
    }

    @Override
    public void decode(Chunk chunk, DecodeSink sink) {
        for (int i = 0; i < chunk.size(); i++) {
            buffer[held++] = (byte) chunk.at(i);
            while (held > 0 && step(chunk.arrivalNanos(), sink)) {
                // each step gives up or completes at least one byte
            }
        }
    }

    private boolean step(long arrivalNanos, DecodeSink sink) {
        boolean mayGrow = false;
        for (ModbusRequest request : requests) {
            int n = Math.min(held, QUESTION);
            boolean question = Arrays.equals(buffer, 0, n, request.bytes(), 0, n);
            if (question && n == QUESTION) {
                report(sink);
                sink.filler(QUESTION);
                drop(QUESTION);
                return true;
            }
            mayGrow |= question;
            if (request.mayAnswer(buffer, held)) {
                int expected = request.expected(buffer, held);
                if (held >= expected && answer(request, expected, arrivalNanos, sink)) {
                    return true;
                }
                mayGrow |= held < expected;
            }
        }
        if (mayGrow && held < CEILING) {
            return false;
        }
        skip(sink);
        return true;
    }

    private void skip(DecodeSink sink) {
        noise++;
        drop(1);
        if (noise >= CEILING) {
            report(sink);
        }
    }

    private boolean answer(ModbusRequest request, int length, long arrivalNanos, DecodeSink sink) {
        staged.clear();
        Fault fault = request.read(buffer, length, staged);
        if (fault != null && fault != Fault.REFUSED) {
            return false;
        }
        report(sink);
        if (fault == null) {
            if (sink.wantsParts()) {
                request.tellParts(length, sink);
            }
            staged.release(length, arrivalNanos, sink);
        } else {
            sink.fault(fault, length);
        }
        drop(length);
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
        held -= count;
    }

    @Override
    public void restart(long nowNanos) {
        held = 0;
        noise = 0;
    }

    @Override
    public int held() {
        return held + noise;
    }
}
