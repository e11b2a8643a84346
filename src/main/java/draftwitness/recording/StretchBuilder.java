package draftwitness.recording;

import draftwitness.reading.Block;
import draftwitness.reading.Channel;
import draftwitness.reading.SessionHeader;
import draftwitness.reading.Slice;
import draftwitness.reading.Step;
import draftwitness.reading.Tap;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;

/** Gathers slices until they are written as one {@link Stretch}. One owner thread. */
final class StretchBuilder {
    private final SessionHeader header;
    private final long timeStepNanos;
    private final Map<Tap, Integer> positions = new EnumMap<>(Tap.class);
    private final List<List<Run>> runs = new ArrayList<>();
    private final long[] lastNanos;
    private boolean started;
    private long nextCell;
    private int cells;
    private int readings;

    StretchBuilder(SessionHeader header) {
        this.header = header;
        this.timeStepNanos = header.timeStepNanos();
        for (Channel c : header.channels()) {
            positions.put(c.tap(), runs.size());
            runs.add(new ArrayList<>());
        }
        lastNanos = new long[runs.size()];
        Arrays.fill(lastNanos, Long.MIN_VALUE);
    }

    /** Cells gathered. */
    int cells() {
        return cells;
    }

    /** Readings gathered. */
    int readings() {
        return readings;
    }

    /** Refuses a slice that cannot be kept as it is, before anything of it is taken. */
    void check(Slice slice) {
        if (started && slice.index() != nextCell) {
            throw new IllegalArgumentException("slice " + slice.index() + " does not follow " + (nextCell - 1));
        }
        long[] last = lastNanos.clone();
        for (Block block : slice.blocks()) {
            int channel = positionOf(block.channel());
            if (last[channel] >= block.firstNanos()) {
                throw new IllegalArgumentException(block + " does not follow " + last[channel] + " ns");
            }
            last[channel] = block.lastNanos();
            checkTimes(block);
            if (block.lastNanos() >= slice.endNanos()) {
                throw new IllegalArgumentException(block + " reaches beyond its slice " + slice.index());
            }
        }
    }

    private int positionOf(Channel channel) {
        Integer position = positions.get(channel.tap());
        if (position == null || !header.channels().get(position).equals(channel)) {
            throw new IllegalArgumentException(channel + " is not a channel of this session");
        }
        return position;
    }

    private void checkTimes(Block block) {
        for (int i = 0; i < block.size(); i++) {
            checkTime(block.timeNanos(i));
            checkTime(block.arrivalNanos(i));
        }
    }

    private void checkTime(long nanos) {
        if (nanos % timeStepNanos != 0) {
            throw new IllegalArgumentException(
                    nanos + " ns is not a multiple of the time step of " + timeStepNanos + " ns");
        }
    }

    /** Takes a slice that {@link #check} let pass. */
    void add(Slice slice) {
        started = true;
        nextCell = slice.index() + 1;
        cells++;
        for (Block block : slice.blocks()) {
            add(block, slice.index());
        }
    }

    private void add(Block block, long cell) {
        int channel = positionOf(block.channel());
        lastNanos[channel] = block.lastNanos();
        Run run = runFor(channel, block.step(), block.hasArrivals());
        readings += block.size();
        for (int i = 0; i < block.size(); i++) {
            long time = block.timeNanos(i);
            long late = cell - Slice.indexOf(time);
            run.add(
                    time / timeStepNanos,
                    block.count(i),
                    late,
                    block.arrivalNanos(i) / timeStepNanos,
                    block.counter(i));
        }
    }

    /** Begins a cell by hand, for {@link #add(int, Step, long, long)}; cells must follow one another. */
    void begin(long cell) {
        started = true;
        nextCell = cell + 1;
        cells++;
    }

    /** True if nothing was taken yet. */
    boolean untouched() {
        return !started;
    }

    /** Number of the cell that is due next. */
    long nextCell() {
        return nextCell;
    }

    /** Adds one reading to the cell begun last; the caller sees to the order of times and that they fit the step. */
    void add(int channel, Step step, long timeNanos, long count) {
        long time = timeNanos / timeStepNanos;
        long late = nextCell - 1 - Slice.indexOf(timeNanos);
        runFor(channel, step, false).add(time, count, late, time, Block.NO_COUNTER);
        lastNanos[channel] = timeNanos;
        readings++;
    }

    private Run runFor(int channel, Step step, boolean hasArrivals) {
        List<Run> ofChannel = runs.get(channel);
        if (!ofChannel.isEmpty()) {
            Run last = ofChannel.get(ofChannel.size() - 1);
            if (last.continuedBy(step, hasArrivals)) {
                return last;
            }
        }
        Run run = new Run(channel, step, 64);
        run = hasArrivals ? run.withArrivals() : run;
        ofChannel.add(run);
        return run;
    }

    /** Hands over what was gathered and starts anew. */
    Stretch take() {
        List<Run> all = new ArrayList<>();
        for (List<Run> ofChannel : runs) {
            all.addAll(ofChannel);
            ofChannel.clear();
        }
        Stretch stretch = new Stretch(nextCell - cells, cells, all);
        cells = 0;
        readings = 0;
        return stretch;
    }
}
