package draftwitness.signal;

/**
 * Count, mean, standard deviation, root mean square and extremes of values as they come. One owner thread.
 *
 * <p>Definitions: 40 CFR 1065.602 (b), (c), (d). Computed by Welford's recurrence (Technometrics 4, 1962).
 */
public final class Moments {
    private long count;
    private double mean;
    private double squares;
    private double smallest = Double.POSITIVE_INFINITY;
    private double largest = Double.NEGATIVE_INFINITY;

    /** Adds a value. */
    public void add(double value) {
        count++;
        double from = value - mean;
        mean += from / count;
        squares += from * (value - mean);
        smallest = Math.min(smallest, value);
        largest = Math.max(largest, value);
    }

    /** Forgets everything. */
    public void clear() {
        count = 0;
        mean = 0;
        squares = 0;
        smallest = Double.POSITIVE_INFINITY;
        largest = Double.NEGATIVE_INFINITY;
    }

    public long count() {
        return count;
    }

    /** The mean; NaN when empty. */
    public double mean() {
        return count == 0 ? Double.NaN : mean;
    }

    /** The sample standard deviation ({@code n - 1}); NaN below two values. */
    public double deviation() {
        return count < 2 ? Double.NaN : Math.sqrt(squares / (count - 1));
    }

    /** The root mean square; NaN when empty. */
    public double rootMeanSquare() {
        return count == 0 ? Double.NaN : Math.sqrt(mean * mean + squares / count);
    }

    /** The smallest value; positive infinity when empty. */
    public double smallest() {
        return smallest;
    }

    /** The largest value; negative infinity when empty. */
    public double largest() {
        return largest;
    }
}
