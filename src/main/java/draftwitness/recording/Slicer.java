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
 * readings of a channel share a block until its step changes, so the same readings always give equal slices.
 *
 * <p>One owner thread.
 */
public final class Slicer {
    private final List<Channel> channels;
    private final Open[] open;
    private List<SourceEvent> events = new ArrayList<>();
    private long cell;

    /** Readings of one channel in the open cell. */
    private static final class Open {
        private final List<Block> finished = new ArrayList<>();
        private @Nullable Step step;
        private long[] times = new long[16];
        private long[] counts = new long[16];
        private int size;
    }

    /**
     * Opens the first cell.
     *
     * @param channels the session's channels, in its order
     * @param firstCell number of the first cell
     */
    public Slicer(List<Channel> channels, long firstCell) {
        this.channels = List.copyOf(channels);
        this.cell = firstCell;
        open = new Open[channels.size()];
        for (int i = 0; i < open.length; i++) {
            open[i] = new Open();
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
        Open o = open[channel];
        if (o.step == null || !o.step.equals(step)) {
            finish(channel);
            o.step = step;
        }
        if (o.size == o.times.length) {
            o.times = Arrays.copyOf(o.times, 2 * o.size);
            o.counts = Arrays.copyOf(o.counts, 2 * o.size);
        }
        o.times[o.size] = timeNanos;
        o.counts[o.size++] = count;
    }

    /** Adds an event to the open cell. */
    public void add(SourceEvent event) {
        events.add(event);
    }

    private void finish(int channel) {
        Open o = open[channel];
        if (o.size > 0 && o.step != null) {
            o.finished.add(new Block(
                    channels.get(channel), o.step, Arrays.copyOf(o.times, o.size), Arrays.copyOf(o.counts, o.size)));
            o.size = 0;
        }
    }

    /**
     * Closes the open cell and opens the next.
     *
     * @return what the closed cell holds, maybe nothing
     */
    public Slice next() {
        List<Block> blocks = new ArrayList<>();
        for (int i = 0; i < open.length; i++) {
            finish(i);
            blocks.addAll(open[i].finished);
            open[i].finished.clear();
        }
        Slice slice = new Slice(cell++, blocks, events);
        events = new ArrayList<>();
        return slice;
    }
}
