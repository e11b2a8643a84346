package draftwitness.dashboard;

import java.util.Arrays;

/**
 * Notices where readings of a channel are missing: over five sample periods and over one second without any, or an
 * interrupted source. The sample period is learned from the readings. One thread.
 */
final class GapFinder {
    private static final long SHORTEST_GAP_NANOS = 1_000_000_000;
    private static final int PERIODS = 5;

    /** Share of a new interval in the learned period. */
    private static final double LEARNING = 1.0 / 16;

    private final boolean holds;
    private double periodNanos;
    private boolean started;
    private long last;
    private boolean interrupted;
    private long interruptedAt;
    private long[] bounds = new long[16];
    private int count;

    /** Gaps found so far, oldest first; shares the array, which only grows. */
    static final class Found {
        private final long[] bounds;
        private final int count;

        private Found(long[] bounds, int count) {
            this.bounds = bounds;
            this.count = count;
        }

        /** Adds to {@code out} the gaps that touch the time from one reading to another. */
        void addTo(Columns.Builder out, long fromNanos, long toNanos) {
            for (int i = firstEndingAfter(fromNanos); i < count && bounds[2 * i] < toNanos; i++) {
                out.gap(new TimeSpan(bounds[2 * i], bounds[2 * i + 1]));
            }
        }

        private int firstEndingAfter(long nanos) {
            int low = 0;
            int high = count;
            while (low < high) {
                int middle = (low + high) >>> 1;
                if (bounds[2 * middle + 1] <= nanos) {
                    low = middle + 1;
                } else {
                    high = middle;
                }
            }
            return low;
        }
    }

    GapFinder(boolean holds) {
        this.holds = holds;
    }

    /** The next reading; times increase. */
    void reading(long time) {
        if (started) {
            long interval = time - last;
            boolean overdue = interval > SHORTEST_GAP_NANOS && periodNanos > 0 && interval > PERIODS * periodNanos;
            if (interrupted) {
                add(holds ? interruptedAt : last, time);
            } else if (overdue && !holds) {
                add(last, time);
            } else {
                periodNanos = periodNanos == 0 ? interval : periodNanos + LEARNING * (interval - periodNanos);
            }
        }
        started = true;
        interrupted = false;
        last = time;
    }

    /** The source was interrupted; not before the last reading. */
    void interrupt(long time) {
        if (!interrupted) {
            interrupted = true;
            interruptedAt = time;
        }
    }

    private void add(long from, long to) {
        if (2 * count == bounds.length) {
            bounds = Arrays.copyOf(bounds, 2 * bounds.length);
        }
        bounds[2 * count] = from;
        bounds[2 * count + 1] = to;
        count++;
    }

    Found snapshot() {
        return new Found(bounds, count);
    }
}
