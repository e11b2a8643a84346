package draftwitness.signal;

import java.util.Arrays;

/**
 * Percentiles of a stream of positive values in constant memory, by counting in bins one part in 2048 wide. Values at
 * or below the smallest bin count as that. One owner thread.
 *
 * <p>How it works: the leading bits of a {@code double} are its exponent and mantissa, so they number bins whose width
 * grows with the value.
 */
public final class ShareHistogram {
    private static final int SHIFT = 52 - 11;
    private static final long LOWEST = Double.doubleToLongBits(0x1p-6) >>> SHIFT;
    private static final int BINS = (int) ((Double.doubleToLongBits(0x1p14) >>> SHIFT) - LOWEST);

    private final int[] bins = new int[BINS];
    private long total;

    /** Counts a value; NaN is not counted. */
    public void add(double value) {
        if (Double.isNaN(value)) {
            return;
        }
        long bin = value <= 0 ? 0 : (Double.doubleToLongBits(value) >>> SHIFT) - LOWEST;
        bins[(int) Math.max(0, Math.min(BINS - 1, bin))]++;
        total++;
    }

    /** The value that a share (0 to 1) of all values does not exceed, to half a bin; NaN when empty. */
    public double quantile(double share) {
        if (total == 0) {
            return Double.NaN;
        }
        long rank = (long) Math.floor((total - 1) * share);
        int bin = 0;
        for (long seen = bins[0]; seen <= rank; seen += bins[bin]) {
            bin++;
        }
        double from = Double.longBitsToDouble((bin + LOWEST) << SHIFT);
        double to = Double.longBitsToDouble((bin + LOWEST + 1) << SHIFT);
        return (from + to) / 2;
    }

    /** Adds all that another one counted. */
    public void addAll(ShareHistogram other) {
        for (int i = 0; i < BINS; i++) {
            bins[i] += other.bins[i];
        }
        total += other.total;
    }

    /** Forgets everything. */
    public void clear() {
        if (total > 0) {
            Arrays.fill(bins, 0);
            total = 0;
        }
    }
}
