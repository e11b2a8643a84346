package draftwitness.cycle;

import draftwitness.signal.Robust;
import java.util.Arrays;

/**
 * Suction without the instrument's noise, for the weakest levels of a run. Pure.
 *
 * <p>How it works: the least of thousands of noisy looks lies several standard deviations below the true level, so a
 * quiet run seen by a noisy instrument would seem to have less margin than it has. Each look therefore counts with the
 * mean of its surroundings, as wide as the noise needs, unless it, or the mean of a few looks around it, stands out
 * from them by more than noise does: a real dip keeps its depth. With little noise nothing is changed. The noise is
 * taken from second differences of the looks, which slow changes do not reach.
 */
final class Quiet {
    /** Beyond so many standard deviations a dip is real; noise alone does it about once in thirty thousand looks. */
    private static final double STANDS_OUT = 4;

    /** The least of a run's looks lies about so many standard deviations low. */
    private static final double EXTREME = 3.5;

    private static final int WIDEST = 41;
    private static final int[] WIDTHS = {3, 9};

    private Quiet() {}

    /** Standard deviation of one look by itself; 0 with fewer than five looks. */
    static double noise(double[] means, int from, int to) {
        if (to - from < 5) {
            return 0;
        }
        double[] second = new double[to - from - 2];
        for (int i = 0; i < second.length; i++) {
            second[i] = means[from + i] - 2 * means[from + i + 1] + means[from + i + 2];
        }
        return Robust.SIGMA_OF_MAD * Robust.mad(second) / Math.sqrt(6); // 1 + 4 + 1 variances
    }

    /**
     * The looks from one index to another without noise.
     *
     * @param means of the looks
     * @param lows weakest lasting level of each look, not above what may count
     * @param noise standard deviation of a look
     * @param allowed noise that may stay in the least of them
     */
    static double[] levels(double[] means, double[] lows, int from, int to, double noise, double allowed) {
        int wide = (int) Math.min(WIDEST, Math.ceil(Math.pow(EXTREME * noise / allowed, 2))) | 1;
        if (wide <= 1) {
            return Arrays.copyOfRange(lows, from, to);
        }
        double[] sums = new double[to - from + 1];
        for (int i = from; i < to; i++) {
            sums[i - from + 1] = sums[i - from] + means[i];
        }
        double[] out = new double[to - from];
        for (int i = 0; i < out.length; i++) {
            double base = mean(sums, i, wide);
            double level = base;
            for (int width : WIDTHS) {
                double narrow = mean(sums, i, width);
                if (width < wide && base - narrow > STANDS_OUT * noise / Math.sqrt(width)) {
                    level = Math.min(level, narrow);
                }
            }
            boolean dip = base - lows[from + i] > STANDS_OUT * noise;
            out[i] = dip ? Math.min(level, lows[from + i]) : level;
        }
        return out;
    }

    private static double mean(double[] sums, int middle, int width) {
        int a = Math.max(0, middle - width / 2);
        int b = Math.min(sums.length - 1, middle + width / 2 + 1);
        return (sums[b] - sums[a]) / (b - a);
    }
}
