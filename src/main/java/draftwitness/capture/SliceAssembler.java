package draftwitness.capture;

import draftwitness.reading.Block;
import draftwitness.reading.Channel;
import draftwitness.reading.Decimal;
import draftwitness.reading.Slice;
import draftwitness.reading.SourceEvent;
import draftwitness.reading.Step;
import draftwitness.reading.Unit;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.function.Consumer;

/**
 * Sorts readings into the cells of the session's time grid and cuts them into blocks. Pure; one owner thread.
 *
 * <p>Times are rounded to the session's time step and made strictly increasing a channel: a reading that would fall on
 * or before the one before it is put one step after it. Counts are kept in the finest step that the channel has shown
 * so far, so that an instrument that drops trailing zeros gives whole blocks.
 */
final class SliceAssembler {
    private final List<Pending> pending = new ArrayList<>();
    private final List<SourceEvent> events = new ArrayList<>();
    private final long timeStepNanos;
    private long nextIndex;

    SliceAssembler(List<Channel> channels, long timeStepNanos) {
        channels.forEach(c -> pending.add(new Pending(c)));
        this.timeStepNanos = timeStepNanos;
    }

    /**
     * Adds a reading.
     *
     * @param channel position in the session's channels
     * @param timeNanos session time, in nanoseconds
     * @return false if its cell has been handed on already, so that it travels in the next one
     */
    boolean add(int channel, long timeNanos, Decimal value, Unit unit) {
        long rounded = Math.floorDiv(timeNanos + timeStepNanos / 2, timeStepNanos) * timeStepNanos;
        long time = pending.get(channel).add(rounded, timeStepNanos, value, unit);
        return Slice.indexOf(time) >= nextIndex;
    }

    /** Adds a change of a source's state. */
    void event(SourceEvent event) {
        events.add(event);
    }

    /** Hands on every cell that ends at or before the given session time. */
    void emitUntil(long timeNanos, Consumer<Slice> out) {
        while ((nextIndex + 1) * Slice.CELL_NANOS <= timeNanos) {
            long end = (nextIndex + 1) * Slice.CELL_NANOS;
            List<Block> blocks = new ArrayList<>();
            pending.forEach(p -> p.take(end, blocks));
            List<SourceEvent> due =
                    events.stream().filter(e -> e.timeNanos() < end).toList();
            events.removeAll(due);
            out.accept(new Slice(nextIndex, blocks, due));
            nextIndex++;
        }
    }

    /** Hands on all that is left, up to the cell of the last reading or event. */
    void finish(Consumer<Slice> out) {
        long last = pending.stream().mapToLong(Pending::lastNanos).max().orElse(Long.MIN_VALUE);
        last = Math.max(
                last, events.stream().mapToLong(SourceEvent::timeNanos).max().orElse(Long.MIN_VALUE));
        if (last != Long.MIN_VALUE) {
            emitUntil((Slice.indexOf(last) + 1) * Slice.CELL_NANOS, out);
        }
    }

    /** Readings of one channel that wait for their cell to end. */
    private static final class Pending {
        private final Channel channel;
        private long[] times = new long[256];
        private long[] counts = new long[256];
        private Step[] steps = new Step[256];
        private int size;
        private long last = Long.MIN_VALUE;
        private Step finest;

        Pending(Channel channel) {
            this.channel = channel;
            this.finest = new Step(channel.unit(), 0);
        }

        long lastNanos() {
            return size == 0 ? Long.MIN_VALUE : last;
        }

        long add(long roundedNanos, long timeStepNanos, Decimal value, Unit unit) {
            Step own = new Step(unit, value.decimals());
            if (finest.unit() != unit || own.decimals() > finest.decimals()) {
                finest = own;
            }
            if (size == times.length) {
                times = Arrays.copyOf(times, 2 * size);
                counts = Arrays.copyOf(counts, 2 * size);
                steps = Arrays.copyOf(steps, 2 * size);
            }
            long time = last == Long.MIN_VALUE ? roundedNanos : Math.max(roundedNanos, last + timeStepNanos);
            times[size] = time;
            if (fits(value.count(), finest.countsPerUnit() / own.countsPerUnit())) {
                counts[size] = own.recount(value.count(), finest);
                steps[size] = finest;
            } else {
                counts[size] = value.count();
                steps[size] = own;
            }
            size++;
            last = time;
            return time;
        }

        private static boolean fits(long count, long factor) {
            return Math.multiplyHigh(count, factor) == (count * factor) >> 63;
        }

        void take(long endNanos, List<Block> out) {
            int from = 0;
            int n = 0;
            while (n < size && times[n] < endNanos) {
                n++;
                if (n == size || times[n] >= endNanos || !steps[n].equals(steps[from])) {
                    out.add(new Block(
                            channel,
                            steps[from],
                            Arrays.copyOfRange(times, from, n),
                            Arrays.copyOfRange(counts, from, n)));
                    from = n;
                }
            }
            System.arraycopy(times, n, times, 0, size - n);
            System.arraycopy(counts, n, counts, 0, size - n);
            System.arraycopy(steps, n, steps, 0, size - n);
            size -= n;
        }
    }
}
