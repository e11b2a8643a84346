package draftwitness.dashboard;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * Readings of one channel summed up by columns of a {@link ColumnGrid}: for each column the first, last, smallest and
 * largest value (the four values that a line drawing of any width keeps exactly, known as M4), and where readings are
 * missing. Immutable. Values are in the base unit of the channel's quantity.
 */
public final class Columns {
    private final ColumnGrid grid;
    private final int[] counts;
    private final double[] min;
    private final double[] max;
    private final double[] first;
    private final double[] last;
    private final double[] sum;
    private final long[] firstTime;
    private final long[] lastTime;
    private final List<TimeSpan> gaps;
    private final @Nullable Sample before;
    private final @Nullable Sample after;

    private Columns(Builder b) {
        grid = b.grid;
        counts = b.counts;
        min = b.min;
        max = b.max;
        first = b.first;
        last = b.last;
        sum = b.sum;
        firstTime = b.firstTime;
        lastTime = b.lastTime;
        gaps = b.gaps.stream()
                .sorted(Comparator.comparingLong(TimeSpan::fromNanos))
                .toList();
        before = b.before;
        after = b.after;
    }

    /** Columns without any reading. */
    public static Columns empty(ColumnGrid grid) {
        return new Builder(grid).build();
    }

    public ColumnGrid grid() {
        return grid;
    }

    /** Number of readings in a column, at least; 0 means there are none. */
    public int count(int column) {
        return counts[column];
    }

    /** Smallest value in a column; meaningless when it is empty. */
    public double min(int column) {
        return min[column];
    }

    /** Largest value in a column; meaningless when it is empty. */
    public double max(int column) {
        return max[column];
    }

    /** First value in a column; meaningless when it is empty. */
    public double first(int column) {
        return first[column];
    }

    /** Last value in a column; meaningless when it is empty. */
    public double last(int column) {
        return last[column];
    }

    /** Mean of a column's readings, or NaN when it is empty or only summaries without sums were added. */
    public double mean(int column) {
        return counts[column] == 0 ? Double.NaN : sum[column] / counts[column];
    }

    /** Session time of the first reading of a column; meaningless when it is empty. */
    public long firstTime(int column) {
        return firstTime[column];
    }

    /** Session time of the last reading of a column; meaningless when it is empty. */
    public long lastTime(int column) {
        return lastTime[column];
    }

    /** Spans without readings that touch the grid, oldest first: from the last reading before to the first after. */
    public List<TimeSpan> gaps() {
        return gaps;
    }

    /** The last reading before the grid, or null; so that a line can come in from the left. */
    public @Nullable Sample before() {
        return before;
    }

    /** The first reading after the grid, or null; so that a line can leave to the right. */
    public @Nullable Sample after() {
        return after;
    }

    /** True when a line from one reading to a later one would run over missing readings. */
    public boolean interrupted(long earlierNanos, long laterNanos) {
        for (TimeSpan gap : gaps) {
            if (gap.fromNanos() >= laterNanos) {
                return false;
            }
            if (gap.fromNanos() >= earlierNanos && gap.toNanos() <= laterNanos) {
                return true;
            }
        }
        return false;
    }

    /** Smallest and largest value of all columns, or null when there is no reading. */
    public double @Nullable [] extremes() {
        double low = Double.POSITIVE_INFINITY;
        double high = Double.NEGATIVE_INFINITY;
        for (int i = 0; i < counts.length; i++) {
            if (counts[i] > 0) {
                low = Math.min(low, min[i]);
                high = Math.max(high, max[i]);
            }
        }
        return low <= high ? new double[] {low, high} : null;
    }

    /** True when columns hold so few readings that a line through them shows them singly. */
    public boolean sparse() {
        long readings = 0;
        int used = 0;
        for (int count : counts) {
            readings += count;
            used += count > 0 ? 1 : 0;
        }
        return readings <= 2L * used;
    }

    /**
     * Collects readings or summaries of readings into columns; what whoever implements {@link SeriesWindows} uses. One
     * thread; readings of a column come oldest first.
     */
    public static final class Builder {
        private final ColumnGrid grid;
        private final int[] counts;
        private final double[] min;
        private final double[] max;
        private final double[] first;
        private final double[] last;
        private final double[] sum;
        private final long[] firstTime;
        private final long[] lastTime;
        private final List<TimeSpan> gaps = new ArrayList<>();
        private @Nullable Sample before;
        private @Nullable Sample after;

        public Builder(ColumnGrid grid) {
            this.grid = grid;
            int n = grid.count();
            counts = new int[n];
            min = new double[n];
            max = new double[n];
            first = new double[n];
            last = new double[n];
            sum = new double[n];
            firstTime = new long[n];
            lastTime = new long[n];
            Arrays.fill(min, Double.POSITIVE_INFINITY);
            Arrays.fill(max, Double.NEGATIVE_INFINITY);
        }

        /** Adds one reading; outside the grid it becomes {@link Columns#before()} or {@link Columns#after()}. */
        public void add(long timeNanos, double value) {
            int column = grid.indexOf(timeNanos);
            if (column < 0) {
                before = new Sample(timeNanos, value);
            } else if (column >= grid.count()) {
                if (after == null) {
                    after = new Sample(timeNanos, value);
                }
            } else {
                firstIn(column, timeNanos, value);
                extend(column, 1, value, value);
                sum[column] += value;
                lastIn(column, timeNanos, value);
            }
        }

        /**
         * Adds a summary of several readings. When it reaches over several columns, each of them gets its smallest and
         * largest value: nothing that was read is hidden, though it is known less exactly when it was.
         *
         * @param count readings summed up, at least 1
         * @param total sum of the values, or NaN when not known
         */
        public void addSummary(
                int count,
                long firstNanos,
                long lastNanos,
                double low,
                double high,
                double start,
                double end,
                double total) {
            int from = Math.max(0, grid.indexOf(firstNanos));
            int to = Math.min(grid.count() - 1, grid.indexOf(lastNanos));
            for (int column = from; column <= to; column++) {
                boolean opens = column == grid.indexOf(firstNanos);
                boolean closes = column == grid.indexOf(lastNanos);
                firstIn(column, opens ? firstNanos : grid.startOf(column), opens ? start : (low + high) / 2);
                int share = Math.max(1, count / (to - from + 1));
                extend(column, share, low, high);
                sum[column] += share == count ? total : total / count * share;
                lastIn(column, closes ? lastNanos : grid.startOf(column + 1) - 1, closes ? end : (low + high) / 2);
            }
            if (lastNanos < grid.fromNanos()) {
                before = new Sample(lastNanos, end);
            } else if (firstNanos >= grid.toNanos() && after == null) {
                after = new Sample(firstNanos, start);
            }
        }

        /** Tells of missing readings between two that are there. */
        public void gap(TimeSpan gap) {
            gaps.add(gap);
        }

        public Columns build() {
            return new Columns(this);
        }

        private void extend(int column, int count, double low, double high) {
            counts[column] += count;
            min[column] = Math.min(min[column], low);
            max[column] = Math.max(max[column], high);
        }

        private void firstIn(int column, long timeNanos, double value) {
            if (counts[column] == 0) {
                firstTime[column] = timeNanos;
                first[column] = value;
            }
        }

        private void lastIn(int column, long timeNanos, double value) {
            lastTime[column] = timeNanos;
            last[column] = value;
        }
    }
}
