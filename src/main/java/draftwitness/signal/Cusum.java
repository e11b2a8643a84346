package draftwitness.signal;

/**
 * Two-sided cumulative sum: finds small, lasting shifts of a mean. One owner thread.
 *
 * <p>Source: NIST/SEMATECH e-Handbook of Statistical Methods, 6.3.2.3.
 */
public final class Cusum {
    private final double target;
    private final double slack;
    private final double limit;
    private double high;
    private double low;

    /**
     * Starts at 0.
     *
     * @param slack deviations up to this are forgiven; not negative
     * @param limit sums above this signal; positive
     */
    public Cusum(double target, double slack, double limit) {
        if (!(slack >= 0 && limit > 0)) {
            throw new IllegalArgumentException("slack " + slack + " or limit " + limit + " is out of range");
        }
        this.target = target;
        this.slack = slack;
        this.limit = limit;
    }

    /** Adds a value; true if either sum is above the limit now. */
    public boolean add(double value) {
        high = Math.max(0, high + value - target - slack);
        low = Math.max(0, low + target - slack - value);
        return high > limit || low > limit;
    }

    /** Sum of what was above the target. */
    public double high() {
        return high;
    }

    /** Sum of what was below the target; not negative. */
    public double low() {
        return low;
    }
}
