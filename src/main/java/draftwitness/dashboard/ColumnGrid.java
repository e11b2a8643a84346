package draftwitness.dashboard;

/**
 * Equal columns of time side by side, usually one for each pixel: column {@code i} covers {@code fromNanos + i *
 * columnNanos} (inclusive) to {@code fromNanos + (i + 1) * columnNanos} (exclusive).
 *
 * @param fromNanos start of column 0, in session time
 * @param columnNanos width of a column, at least 1
 * @param count number of columns, at least 1
 */
public record ColumnGrid(long fromNanos, long columnNanos, int count) {
    public ColumnGrid {
        if (columnNanos < 1 || count < 1) {
            throw new IllegalArgumentException(count + " columns of " + columnNanos + " ns");
        }
    }

    /**
     * A grid of at least {@code columns} columns that covers a span. Its columns begin at whole multiples of their
     * width, so that a picture that scrolls puts the same readings into the same columns and does not shimmer.
     */
    public static ColumnGrid covering(TimeSpan span, int columns) {
        long width = Math.max(1, ceilDiv(span.lengthNanos(), columns));
        long from = Math.floorDiv(span.fromNanos(), width) * width;
        int count = (int) Math.max(1, ceilDiv(span.toNanos() - from, width));
        return new ColumnGrid(from, width, count);
    }

    /** End of the last column (exclusive). */
    public long toNanos() {
        return fromNanos + columnNanos * count;
    }

    /** The column that holds a time; below 0 or at least {@link #count()} when outside. */
    public int indexOf(long nanos) {
        long index = Math.floorDiv(nanos - fromNanos, columnNanos);
        return (int) Math.max(-1, Math.min(count, index));
    }

    /** Start of a column. */
    public long startOf(int column) {
        return fromNanos + columnNanos * column;
    }

    public TimeSpan span() {
        return new TimeSpan(fromNanos, toNanos());
    }

    private static long ceilDiv(long a, long b) {
        return -Math.floorDiv(-a, b);
    }
}
