package draftwitness.recording;

import draftwitness.reading.Channel;
import draftwitness.reading.Step;
import draftwitness.reading.Zeros;
import java.util.ArrayDeque;
import java.util.Deque;

/**
 * Gathers one channel's readings of a window. The decoded runs are kept as they come, so that the series is made once,
 * at its right size; each run is let go as soon as it was taken over. One owner thread.
 */
final class SeriesBuilder {
    private final Channel channel;
    private final long timeStepNanos;
    private final long fromNanos;
    private final long toNanos;
    private final Zeros zeros;
    private final boolean zeroed;
    private final Deque<Part> parts = new ArrayDeque<>();
    private int size;
    private long last = Long.MIN_VALUE;

    /**
     * Starts empty.
     *
     * @param fromNanos inclusive
     * @param toNanos exclusive
     * @param zeros offsets to be taken off the counts
     */
    SeriesBuilder(Channel channel, long timeStepNanos, long fromNanos, long toNanos, Zeros zeros) {
        this.channel = channel;
        this.timeStepNanos = timeStepNanos;
        this.fromNanos = fromNanos;
        this.toNanos = toNanos;
        this.zeros = zeros;
        this.zeroed = zeros.facts().stream().anyMatch(z -> z.tap() == channel.tap());
    }

    /** Takes the part of a run that lies in the window and after what was taken before; keeps the run itself. */
    void add(Run run) {
        int from = firstAt(run, Math.max(fromNanos, last + 1));
        int to = firstAt(run, toNanos);
        if (from < to) {
            parts.add(new Part(run, from, to));
            size = Math.addExact(size, to - from);
            last = run.times[to - 1] * timeStepNanos;
        }
    }

    /** Position of the first reading at or after a time. */
    private int firstAt(Run run, long nanos) {
        int low = 0;
        int high = run.size;
        while (low < high) {
            int middle = (low + high) >>> 1;
            if (run.times[middle] * timeStepNanos < nanos) {
                low = middle + 1;
            } else {
                high = middle;
            }
        }
        return low;
    }

    /** The series of all that was added; call it once. */
    Series build() {
        long[] times = new long[size];
        double[] values = new double[size];
        int at = 0;
        for (Part part = parts.poll(); part != null; part = parts.poll()) {
            copy(part, times, values, at);
            at += part.size();
        }
        return new Series(channel, times, values);
    }

    /** Writes a part's times and values from position {@code at} on. */
    private void copy(Part part, long[] times, double[] values, int at) {
        Step step = part.run.step;
        int out = at;
        for (int i = part.from; i < part.to; i++, out++) {
            long time = part.run.times[i] * timeStepNanos;
            long off = zeroed ? zeros.counts(channel.tap(), time, step) : 0;
            times[out] = time;
            values[out] = step.inBase(part.run.counts[i] - off);
        }
    }

    /** Some successive readings of a run. */
    private static final class Part {
        private final Run run;
        private final int from;
        private final int to;

        Part(Run run, int from, int to) {
            this.run = run;
            this.from = from;
            this.to = to;
        }

        int size() {
            return to - from;
        }
    }
}
