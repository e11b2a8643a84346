package draftwitness.driver;

import draftwitness.reading.Decimal;
import draftwitness.reading.Unit;
import java.util.ArrayList;
import java.util.List;

/**
 * Readings of one message, held back until the whole message is known to be good: nothing is salvaged from a damaged
 * one. One owner thread.
 */
final class Staged {
    private record Item(int index, Decimal value, Unit unit) {}

    private final List<Item> items = new ArrayList<>();
    private final List<Fault> faults = new ArrayList<>();
    private long counter;
    private int counterBits;

    void clear() {
        counterBits = 0;
        items.clear();
        faults.clear();
    }

    void add(int index, Decimal value, Unit unit) {
        items.add(new Item(index, value, unit));
    }

    /** One reading of the message is missing by the instrument's own word; the others stand. */
    void missing(Fault fault) {
        faults.add(fault);
    }

    /** The message carries the instrument's own counter. */
    void counter(long value, int bits) {
        counter = value;
        counterBits = bits;
    }

    boolean isEmpty() {
        return items.isEmpty() && faults.isEmpty();
    }

    /** The message is good: hands on its readings and {@code bytes}. */
    void release(int bytes, long arrivalNanos, DecodeSink sink) {
        if (counterBits > 0) {
            sink.counter(counter, counterBits);
        }
        for (Fault fault : faults) {
            sink.fault(fault, 0);
        }
        for (Item item : items) {
            sink.reading(item.index(), item.value(), item.unit(), arrivalNanos);
        }
        sink.message(bytes);
        clear();
    }
}
