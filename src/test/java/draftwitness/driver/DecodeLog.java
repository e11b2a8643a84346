package draftwitness.driver;

import draftwitness.reading.Decimal;
import draftwitness.reading.Unit;
import java.util.ArrayList;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;

/** Writes down what a decoder says, and adds up the bytes it accounts for. */
final class DecodeLog implements DecodeSink {
    final List<String> readings = new ArrayList<>();
    final List<Long> arrivals = new ArrayList<>();
    /** Everything in order: readings, faults, messages, filler. */
    final List<String> events = new ArrayList<>();

    final Map<Fault, Integer> faults = new EnumMap<>(Fault.class);
    long bytes;

    @Override
    public void reading(int index, Decimal value, Unit unit, long arrivalNanos) {
        String text = index + ": " + value + " " + unit.symbol();
        readings.add(text);
        arrivals.add(arrivalNanos);
        events.add(text);
    }

    @Override
    public void fault(Fault fault, int count) {
        if (count < 0) {
            throw new IllegalStateException(fault + " with " + count + " bytes");
        }
        faults.merge(fault, 1, Integer::sum);
        events.add(fault + " " + count);
        bytes += count;
    }

    @Override
    public void message(int count) {
        events.add("message " + count);
        bytes += positive(count);
    }

    @Override
    public void filler(int count) {
        events.add("filler " + count);
        bytes += positive(count);
    }

    @Override
    public void counter(long value, int bits) {
        events.add("counter " + value + " of " + bits + " bits");
    }

    @Override
    public void battery(int percent) {
        events.add("battery " + percent);
    }

    private static int positive(int count) {
        if (count <= 0) {
            throw new IllegalStateException(count + " bytes");
        }
        return count;
    }
}
