package draftwitness.recording;

import draftwitness.reading.Block;
import draftwitness.reading.Channel;
import draftwitness.reading.Slice;
import draftwitness.reading.SourceEvent;
import draftwitness.reading.Step;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * Cuts readings into slices: add what belongs into the open cell, take the slice, and the next cell is open. Successive
 * readings of a channel share a block until its step changes or arrivals begin or end beside its times, so the same
 * readings always give equal slices.
 *
 * <p>One owner thread.
 */
public final class Slicer {
    private final Open[] open;
    private List<SourceEvent> events = new ArrayList<>();
    private long cell;

    /** Stands for the arrival of a reading whose time is its arrival. */
    public static final long NO_ARRIVAL = Long.MIN_VALUE;

    /** Readings of one channel in the open cell. */
    private static final class Open {
        private final Channel channel;
        private final List<Block> finished = new ArrayList<>();
        private @Nullable Step step;
        private long[] times = new long[16];
        private long[] counts = new long[16];
        private long[] arrivals = new long[16];
        private long[] counters = new long[16];
        private boolean hasArrivals;
        private boolean hasCounters;
        private int size;

        Open(Channel channel) {
            this.channel = channel;
        }

        void grow() {
            times = Arrays.copyOf(times, 2 * size);
            counts = Arrays.copyOf(counts, 2 * size);
            arrivals = Arrays.copyOf(arrivals, 2 * size);
            counters = Arrays.copyOf(counters, 2 * size);
        }

        void finish() {
            if (size > 0 && step != null) {
                finished.add(new Block(
                        channel,
                        step,
                        Arrays.copyOf(times, size),
                        Arrays.copyOf(counts, size),
                        hasArrivals ? Arrays.copyOf(arrivals, size) : null,
                        hasCounters ? Arrays.copyOf(counters, size) : null));
                size = 0;
                hasCounters = false;
            }
        }
    }

    /**
     * Opens the first cell.
     *
     * @param channels the session's channels, in its order
     * @param firstCell number of the first cell
     */
    public Slicer(List<Channel> channels, long firstCell) {
        this.cell = firstCell;
        open = new Open[channels.size()];
        for (int i = 0; i < open.length; i++) {
            open[i] = new Open(channels.get(i));
        }
    }

    /** Number of the open cell. */
    public long openCell() {
        return cell;
    }

    /**
     * Adds a reading to the open cell, whatever its time.
     *
     * @param channel position in the session's channels
     * @param timeNanos session time; above that of the channel's reading before
     */
    public void add(int channel, Step step, long timeNanos, long count) {
        add(channel, step, timeNanos, count, NO_ARRIVAL, Block.NO_COUNTER);
    }

    /**
     * The same for a reading with something beside its time.
     *
     * @param arrivalNanos when it arrived, or {@link #NO_ARRIVAL} if its time says so
     * @param counter the instrument's own, or {@link Block#NO_COUNTER}
     */
    public void add(int channel, Step step, long timeNanos, long count, long arrivalNanos, long counter) {
        Open o = open[channel];
        boolean hasArrival = arrivalNanos != NO_ARRIVAL;
        if (o.step == null || o.hasArrivals != hasArrival || !o.step.equals(step)) {
            o.finish();
            o.step = step;
            o.hasArrivals = hasArrival;
        }
        if (o.size == o.times.length) {
            o.grow();
        }
        o.times[o.size] = timeNanos;
        o.counts[o.size] = count;
        o.arrivals[o.size] = arrivalNanos;
        o.counters[o.size++] = counter;
        o.hasCounters |= counter != Block.NO_COUNTER;
    }

    /** Adds an event to the open cell. */
    public void add(SourceEvent event) {
        events.add(event);
    }

    /**
     * Closes the open cell and opens the next.
     *
     * @return what the closed cell holds, maybe nothing
     */
    public Slice next() {
        List<Block> blocks = new ArrayList<>();
        for (int i = 0; i < open.length; i++) {
            open[i].finish();
            blocks.addAll(open[i].finished);
            open[i].finished.clear();
        }
        Slice slice = new Slice(cell++, blocks, events);
        events = new ArrayList<>();
        return slice;
    }
}
