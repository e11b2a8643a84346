package draftwitness.cycle;

/**
 * Counts time intervals in buckets about 3 % wide, so that their median is known in constant memory. One owner thread.
 */
final class IntervalHistogram {
    private static final int SUB_BITS = 5;
    private static final int SUBS = 1 << SUB_BITS;

    private final long[] counts = new long[64 * SUBS];
    private long total;

    /** Adds an interval of at least 1 ns. */
    void add(long nanos) {
        counts[bucket(nanos)]++;
        total++;
    }

    /** Median, exact to about 3 %; 0 when nothing was added. */
    long medianNanos() {
        if (total == 0) {
            return 0;
        }
        long half = (total + 1) / 2;
        int i = 0;
        for (long seen = counts[0]; seen < half; seen += counts[i]) {
            i++;
        }
        return middle(i);
    }

    private static int bucket(long nanos) {
        int exponent = 63 - Long.numberOfLeadingZeros(nanos);
        long sub = exponent >= SUB_BITS ? (nanos >>> (exponent - SUB_BITS)) & (SUBS - 1) : nanos - (1L << exponent);
        return exponent * SUBS + (int) sub;
    }

    private static long middle(int bucket) {
        int exponent = bucket / SUBS;
        long sub = bucket % SUBS;
        if (exponent < SUB_BITS) {
            return (1L << exponent) + sub;
        }
        long width = 1L << (exponent - SUB_BITS);
        return (1L << exponent) + sub * width + width / 2;
    }
}
