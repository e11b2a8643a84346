package draftwitness.signal;

import java.util.Arrays;

/**
 * Statistics that a few wild values do not move. Pure.
 *
 * <p>References: Hampel, J. Am. Stat. Assoc. 69 (1974); Liu, Shah and Jiang, Comput. Chem. Eng. 28 (2004).
 */
public final class Robust {
    /** Standard deviation of a normal distribution in units of its median absolute deviation: 1 / Phi^-1(3/4). */
    public static final double SIGMA_OF_MAD = 1.482602218505602;

    private Robust() {}

    /** The median; the mean of the middle two for an even number. NaN when empty. The array stays as it is. */
    public static double median(double[] values) {
        return medianOfSorted(sorted(values));
    }

    /** The median of values in rising order. */
    public static double medianOfSorted(double[] sorted) {
        int n = sorted.length;
        if (n == 0) {
            return Double.NaN;
        }
        return n % 2 == 1 ? sorted[n / 2] : (sorted[n / 2 - 1] + sorted[n / 2]) / 2;
    }

    /** The median absolute deviation from the median, unscaled. NaN when empty. */
    public static double mad(double[] values) {
        double median = median(values);
        double[] deviations = new double[values.length];
        for (int i = 0; i < values.length; i++) {
            deviations[i] = Math.abs(values[i] - median);
        }
        return median(deviations);
    }

    /**
     * The value below which a share of the values lies, linear between neighbours ({@code (n - 1) * share} from the
     * smallest). NaN when empty.
     *
     * @param share 0 to 1
     */
    public static double quantile(double[] values, double share) {
        double[] sorted = sorted(values);
        if (sorted.length == 0) {
            return Double.NaN;
        }
        double at = (sorted.length - 1) * share;
        int below = (int) Math.floor(at);
        int above = Math.min(below + 1, sorted.length - 1);
        return sorted[below] + (at - below) * (sorted[above] - sorted[below]);
    }

    /**
     * Hampel filter: a value further than {@code sigmas} robust standard deviations from the median of its window is
     * replaced by that median. At the ends the window is cut.
     *
     * @param halfWidth values taken on each side
     * @param floor standard deviations smaller than this count as this, so that a constant stretch with one step of
     *     noise is not all outliers; 0 for none
     */
    public static double[] hampel(double[] values, int halfWidth, double sigmas, double floor) {
        double[] out = values.clone();
        for (int i = 0; i < values.length; i++) {
            double[] window =
                    Arrays.copyOfRange(values, Math.max(0, i - halfWidth), Math.min(values.length, i + halfWidth + 1));
            double median = median(window);
            double sigma = Math.max(floor, SIGMA_OF_MAD * mad(window));
            if (Math.abs(values[i] - median) > sigmas * sigma) {
                out[i] = median;
            }
        }
        return out;
    }

    private static double[] sorted(double[] values) {
        double[] sorted = values.clone();
        Arrays.sort(sorted);
        return sorted;
    }
}
