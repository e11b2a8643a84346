package draftwitness.recording;

import draftwitness.reading.Block;
import draftwitness.reading.Slice;
import draftwitness.reading.Step;
import java.util.Arrays;
import org.jspecify.annotations.Nullable;

/**
 * Successive readings of one channel in one step, growing at its end. Times are whole multiples of the file's time
 * step. A reading normally travelled in the slice of its own cell; the exceptions are kept as late spans.
 *
 * <p>Arrivals stand beside the times in the whole run or not at all; counters are there when one reading has one. One
 * owner thread.
 */
final class Run {
    final int channel;
    final Step step;
    int size;
    long[] times;
    long[] counts;
    /** Triples: first position, number of readings, cells that they travelled later than their own. */
    int lateSpans;

    long[] late = new long[0];

    /**
     * When each reading arrived, in time steps; null where the times are the arrivals, and where they were not read.
     */
    long @Nullable [] arrivals;
    /** The instrument's own counters, {@link Block#NO_COUNTER} where there was none; null if no reading has one. */
    long @Nullable [] counters;

    Run(int channel, Step step, int capacity) {
        this.channel = channel;
        this.step = step;
        times = new long[capacity];
        counts = new long[capacity];
    }

    /** The same with room for arrivals beside the times. */
    Run withArrivals() {
        arrivals = new long[times.length];
        return this;
    }

    /** True if two parts of a channel's readings can be one run. */
    boolean continuedBy(Step nextStep, boolean nextHasArrivals) {
        return step.equals(nextStep) && (arrivals != null) == nextHasArrivals;
    }

    /**
     * Adds a reading.
     *
     * @param arrival when it arrived, in time steps; matters only where the run has arrivals
     * @param counter the instrument's, or {@link Block#NO_COUNTER}
     */
    void add(long time, long count, long lateCells, long arrival, long counter) {
        int position = size;
        add(time, count, lateCells);
        if (arrivals != null) {
            arrivals = fitted(arrivals);
            arrivals[position] = arrival;
        }
        if (counters != null || counter != Block.NO_COUNTER) {
            counters = counters == null ? noCounters() : fitted(counters);
            counters[position] = counter;
        }
    }

    private long[] fitted(long[] beside) {
        if (beside.length >= times.length) {
            return beside;
        }
        long[] longer = Arrays.copyOf(beside, times.length);
        Arrays.fill(longer, beside.length, longer.length, Block.NO_COUNTER);
        return longer;
    }

    private long[] noCounters() {
        long[] none = new long[times.length];
        Arrays.fill(none, Block.NO_COUNTER);
        return none;
    }

    private void add(long time, long count, long lateCells) {
        if (size == times.length) {
            times = Arrays.copyOf(times, 2 * size + 16);
            counts = Arrays.copyOf(counts, 2 * size + 16);
        }
        if (lateCells != 0) {
            addLate(size, 1, lateCells);
        }
        times[size] = time;
        counts[size++] = count;
    }

    void addLate(long first, long number, long cells) {
        int last = 3 * lateSpans - 3;
        if (last >= 0 && late[last] + late[last + 1] == first && late[last + 2] == cells) {
            late[last + 1] += number;
            return;
        }
        if (last + 3 == late.length) {
            late = Arrays.copyOf(late, 2 * late.length + 6);
        }
        late[last + 3] = first;
        late[last + 4] = number;
        late[last + 5] = cells;
        lateSpans++;
    }

    /** Appends another run of the same channel and step. */
    void addAll(Run other) {
        if (size + other.size > times.length) {
            times = Arrays.copyOf(times, Math.max(2 * size, size + other.size));
            counts = Arrays.copyOf(counts, times.length);
        }
        System.arraycopy(other.times, 0, times, size, other.size);
        System.arraycopy(other.counts, 0, counts, size, other.size);
        for (int i = 0; i < other.lateSpans; i++) {
            addLate(other.late[3 * i] + size, other.late[3 * i + 1], other.late[3 * i + 2]);
        }
        addBeside(other);
        size += other.size;
    }

    private void addBeside(Run other) {
        if (arrivals != null && other.arrivals != null) {
            arrivals = fitted(arrivals);
            System.arraycopy(other.arrivals, 0, arrivals, size, other.size);
        }
        if (counters != null || other.counters != null) {
            counters = counters == null ? noCounters() : fitted(counters);
            if (other.counters != null) {
                System.arraycopy(other.counters, 0, counters, size, other.size);
            }
        }
    }

    /** The most cells that any reading travelled late; 0 when none did. */
    long maxLate() {
        long max = 0;
        for (int i = 0; i < lateSpans; i++) {
            max = Math.max(max, late[3 * i + 2]);
        }
        return max;
    }

    /** Position of the first reading that travelled in a cell or later. */
    int firstFrom(long cell, long timeStepNanos) {
        long[] cells = cells(timeStepNanos);
        int i = 0;
        while (i < size && cells[i] < cell) {
            i++;
        }
        return i;
    }

    /** The cell that each reading travelled in ({@code size} numbers). */
    long[] cells(long timeStepNanos) {
        long[] cells = new long[size];
        for (int i = 0; i < size; i++) {
            cells[i] = Slice.indexOf(times[i] * timeStepNanos);
        }
        for (int s = 0; s < lateSpans; s++) {
            int first = (int) late[3 * s];
            int end = first + (int) late[3 * s + 1];
            for (int i = first; i < end; i++) {
                cells[i] += late[3 * s + 2];
            }
        }
        return cells;
    }
}
