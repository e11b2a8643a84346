package draftwitness.signal;

/**
 * Exponentially weighted moving average: {@code next = weight * value + (1 - weight) * before}. One owner thread.
 *
 * <p>Source: NIST/SEMATECH e-Handbook of Statistical Methods, 6.3.2.4.
 */
public final class Ewma {
    private final double weight;
    private double average;

    /**
     * Starts.
     *
     * @param weight of each new value, above 0 and at most 1
     * @param start average before the first value
     */
    public Ewma(double weight, double start) {
        if (!(weight > 0 && weight <= 1)) {
            throw new IllegalArgumentException("weight " + weight + " is not in (0, 1]");
        }
        this.weight = weight;
        this.average = start;
    }

    /** Adds a value and returns the new average; a NaN makes the average NaN. */
    public double add(double value) {
        average = weight * value + (1 - weight) * average;
        return average;
    }

    /** The average so far. */
    public double average() {
        return average;
    }

    /**
     * Half width of the control limits around the target, for values with a standard deviation: {@code widths * sigma *
     * sqrt(weight / (2 - weight))}.
     */
    public static double limit(double weight, double sigma, double widths) {
        return widths * sigma * Math.sqrt(weight / (2 - weight));
    }
}
