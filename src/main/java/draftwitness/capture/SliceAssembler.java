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
     * @param stamp when it was taken
     * @return false if its cell has been handed on already, so that it travels in the next one
     */
    boolean add(int channel, Stamp stamp, Decimal value, Unit unit) {
        Stamp onGrid =
                new Stamp(onGrid(stamp.timeNanos()), onGrid(stamp.arrivalNanos()), stamp.isComputed(), stamp.counter());
        long time = pending.get(channel).add(onGrid, timeStepNanos, value, unit);
        return Slice.indexOf(time) >= nextIndex;
    }

    private long onGrid(long timeNanos) {
        return Math.floorDiv(timeNanos + timeStepNanos / 2, timeStepNanos) * timeStepNanos;
    }

    /** Time of a channel's last reading; {@link Long#MIN_VALUE} before the first. */
    long lastNanos(int channel) {
        return pending.get(channel).last;
    }

    /** Session time at which the oldest cell begins that has not been handed on. */
    long openNanos() {
        return nextIndex * Slice.CELL_NANOS;
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

    /**
     * Hands on all that is left, up to the cell of the last reading or event, but not beyond the given session time.
     */
    void finish(long endNanos, Consumer<Slice> out) {
        long last = pending.stream().mapToLong(Pending::lastNanos).max().orElse(Long.MIN_VALUE);
        last = Math.max(
                last, events.stream().mapToLong(SourceEvent::timeNanos).max().orElse(Long.MIN_VALUE));
        if (last != Long.MIN_VALUE) {
            // What came too late for its own cell travels in the next one, even if that is the last.
            long end = (Math.max(Slice.indexOf(last), nextIndex) + 1) * Slice.CELL_NANOS;
            emitUntil(Math.min(endNanos, end), out);
        }
    }

    /** Readings of one channel that wait for their cell to end. */
    private static final class Pending {
        private final Channel channel;
        private long[] times = new long[256];
        private long[] counts = new long[256];
        private Step[] steps = new Step[256];
        private long[] arrivals = new long[256];
        private boolean[] computed = new boolean[256];
        private long[] counters = new long[256];
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

        long add(Stamp stamp, long timeStepNanos, Decimal value, Unit unit) {
            Step own = new Step(unit, value.decimals());
            if (finest.unit() != unit || own.decimals() > finest.decimals()) {
                finest = own;
            }
            if (size == times.length) {
                grow();
            }
            long time = last == Long.MIN_VALUE ? stamp.timeNanos() : Math.max(stamp.timeNanos(), last + timeStepNanos);
            times[size] = time;
            arrivals[size] = stamp.arrivalNanos();
            computed[size] = stamp.isComputed();
            counters[size] = stamp.counter();
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

        private void grow() {
            times = Arrays.copyOf(times, 2 * size);
            counts = Arrays.copyOf(counts, 2 * size);
            steps = Arrays.copyOf(steps, 2 * size);
            arrivals = Arrays.copyOf(arrivals, 2 * size);
            computed = Arrays.copyOf(computed, 2 * size);
            counters = Arrays.copyOf(counters, 2 * size);
        }

        private static boolean fits(long count, long factor) {
            return Math.multiplyHigh(count, factor) == (count * factor) >> 63;
        }

        void take(long endNanos, List<Block> out) {
            int from = 0;
            int n = 0;
            while (n < size && times[n] < endNanos) {
                n++;
                if (n == size || times[n] >= endNanos || !continues(n)) {
                    out.add(block(from, n));
                    from = n;
                }
            }
            if (n == 0) {
                return;
            }
            int left = size - n;
            System.arraycopy(times, n, times, 0, left);
            System.arraycopy(counts, n, counts, 0, left);
            System.arraycopy(steps, n, steps, 0, left);
            System.arraycopy(arrivals, n, arrivals, 0, left);
            System.arraycopy(computed, n, computed, 0, left);
            System.arraycopy(counters, n, counters, 0, left);
            size = left;
        }

        /** Whether reading {@code n} can be in one block with the one before. */
        private boolean continues(int n) {
            return steps[n].equals(steps[n - 1]) && computed[n] == computed[n - 1];
        }

        private Block block(int from, int end) {
            boolean counted = false;
            for (int i = from; i < end; i++) {
                counted |= counters[i] != Block.NO_COUNTER;
            }
            return new Block(
                    channel,
                    steps[from],
                    Arrays.copyOfRange(times, from, end),
                    Arrays.copyOfRange(counts, from, end),
                    computed[from] ? Arrays.copyOfRange(arrivals, from, end) : null,
                    counted ? Arrays.copyOfRange(counters, from, end) : null);
        }
    }
}
