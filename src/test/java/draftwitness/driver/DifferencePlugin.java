package draftwitness.driver;

import draftwitness.input.InputException;
import draftwitness.reading.Chunk;
import draftwitness.reading.Decimal;
import draftwitness.reading.Unit;
import java.util.List;
import java.util.Map;

/**
 * A worked example of a plug-in: an instrument that sends only what has changed, which no description can say.
 *
 * <p>Each byte is the signed difference to the value before, in tenths of a pascal; the byte 0x80 is followed by a
 * whole value, two bytes, highest first. Until the first whole value comes, nothing is known.
 */
public final class DifferencePlugin implements DriverPlugin {
    @Override
    public String name() {
        return "example-differences";
    }

    @Override
    public String title() {
        return "An example: an instrument that sends differences";
    }

    @Override
    public Map<String, String> parameters() {
        return Map.of("unit", "Pa");
    }

    @Override
    public Driver driver(Map<String, String> values) throws InputException {
        String symbol = values.getOrDefault("unit", "");
        Unit unit = Unit.ofSymbol(symbol).orElseThrow(() -> new InputException("unit=" + symbol + " is not a unit"));
        return new DifferenceDriver(new ReadingSpec("pressure", unit));
    }

    private record DifferenceDriver(ReadingSpec spec) implements Driver {
        @Override
        public String name() {
            return "example-differences";
        }

        @Override
        public String title() {
            return "An example: an instrument that sends differences";
        }

        @Override
        public List<ReadingSpec> readings() {
            return List.of(spec);
        }

        @Override
        public Decoder newDecoder() {
            return new DifferenceDecoder(spec.unit());
        }

        @Override
        public String description() {
            return "";
        }
    }

    /** One owner thread. */
    private static final class DifferenceDecoder implements Decoder {
        private static final int WHOLE = 0x80;

        private final Unit unit;
        private final int[] whole = new int[3];
        private int held;
        private boolean known;
        private int value;

        DifferenceDecoder(Unit unit) {
            this.unit = unit;
        }

        @Override
        public void decode(Chunk chunk, DecodeSink sink) {
            for (int i = 0; i < chunk.size(); i++) {
                int b = chunk.at(i);
                if (held > 0 || b == WHOLE) {
                    collect(b, chunk.arrivalNanos(), sink);
                } else if (known) {
                    value += (byte) b;
                    give(1, chunk.arrivalNanos(), sink);
                } else {
                    sink.fault(Fault.PARTIAL, 1);
                }
            }
        }

        private void collect(int b, long arrivalNanos, DecodeSink sink) {
            whole[held++] = b;
            if (held == whole.length) {
                held = 0;
                known = true;
                value = (short) (whole[1] << 8 | whole[2]);
                give(whole.length, arrivalNanos, sink);
            }
        }

        private void give(int bytes, long arrivalNanos, DecodeSink sink) {
            sink.reading(0, new Decimal(value, 1), unit, arrivalNanos);
            sink.message(bytes);
        }

        @Override
        public void restart(long nowNanos) {
            held = 0;
            known = false;
        }

        @Override
        public int held() {
            return held;
        }
    }
}
