package draftwitness.recording;

import draftwitness.reading.Channel;
import draftwitness.reading.Step;
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
    private final Deque<Part> parts = new ArrayDeque<>();
    private int size;
    private long last = Long.MIN_VALUE;

    /**
     * Starts empty.
     *
     * @param fromNanos inclusive
     * @param toNanos exclusive
     */
    SeriesBuilder(Channel channel, long timeStepNanos, long fromNanos, long toNanos) {
        this.channel = channel;
        this.timeStepNanos = timeStepNanos;
        this.fromNanos = fromNanos;
        this.toNanos = toNanos;
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
            at = part.copy(timeStepNanos, times, values, at);
        }
        return new Series(channel, times, values);
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

        /** Writes times and values from position {@code at} on, and tells where they end. */
        int copy(long timeStepNanos, long[] times, double[] values, int at) {
            int out = at;
            Step step = run.step;
            for (int i = from; i < to; i++) {
                times[out] = run.times[i] * timeStepNanos;
                values[out++] = step.inBase(run.counts[i]);
            }
            return out;
        }
    }
}
