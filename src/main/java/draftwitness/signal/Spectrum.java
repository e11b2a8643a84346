package draftwitness.signal;

import java.util.Arrays;

/**
 * Spectral estimates of short stretches. Pure.
 *
 * <p>References: Goertzel, Am. Math. Monthly 65 (1958); Welch, IEEE Trans. Audio Electroacoust. 15 (1967). Lengths are
 * a few hundred values, so each line is computed by itself and no length is better than another.
 */
public final class Spectrum {
    private Spectrum() {}

    /** Spectral weighting. */
    public enum Window {
        /** All values alike. */
        BOXCAR,
        /** Periodic Hann: {@code 0.5 - 0.5 cos(2 pi i / n)}. */
        HANN
    }

    /**
     * Squared magnitude of one line of the discrete Fourier transform.
     *
     * @param line cycles in the whole array; need not be whole
     */
    public static double goertzel(double[] values, double line) {
        double step = 2 * Math.PI * line / values.length;
        double twice = 2 * Math.cos(step);
        double s1 = 0;
        double s2 = 0;
        for (double v : values) {
            double s = v + twice * s1 - s2;
            s2 = s1;
            s1 = s;
        }
        return s1 * s1 + s2 * s2 - twice * s1 * s2;
    }

    /**
     * Power density by Welch's method: segments with their mean taken off, weighted, averaged.
     *
     * @param rate values a second
     * @param segment values in a segment; at most {@code values.length}
     * @param overlap values shared by neighbours; below {@code segment}
     * @return density (square of the unit a hertz) at {@code i * rate / segment}, {@code i} from 0 to {@code segment /
     *     2}
     */
    public static double[] welch(double[] values, double rate, int segment, int overlap, Window window) {
        if (segment < 2 || segment > values.length || overlap < 0 || overlap >= segment) {
            throw new IllegalArgumentException(
                    "segment " + segment + ", overlap " + overlap + " of " + values.length + " values");
        }
        double[] weights = weights(segment, window);
        double energy = 0;
        for (double w : weights) {
            energy += w * w;
        }
        double[] density = new double[segment / 2 + 1];
        int segments = 0;
        for (int from = 0; from + segment <= values.length; from += segment - overlap) {
            add(density, weighted(values, from, weights));
            segments++;
        }
        for (int k = 0; k < density.length; k++) {
            boolean once = k == 0 || 2 * k == segment;
            density[k] *= (once ? 1 : 2) / (rate * energy * segments);
        }
        return density;
    }

    static double[] weights(int n, Window window) {
        double[] weights = new double[n];
        Arrays.fill(weights, 1);
        if (window == Window.HANN) {
            for (int i = 0; i < n; i++) {
                weights[i] = 0.5 - 0.5 * Math.cos(2 * Math.PI * i / n);
            }
        }
        return weights;
    }

    static double[] weighted(double[] values, int from, double[] weights) {
        double mean = 0;
        for (int i = 0; i < weights.length; i++) {
            mean += values[from + i];
        }
        mean /= weights.length;
        double[] out = new double[weights.length];
        for (int i = 0; i < weights.length; i++) {
            out[i] = (values[from + i] - mean) * weights[i];
        }
        return out;
    }

    private static void add(double[] density, double[] segment) {
        for (int k = 0; k < density.length; k++) {
            density[k] += Math.max(0, goertzel(segment, k));
        }
    }

    /**
     * Autocorrelation, biased ({@code 1/n} at every lag), 1 at lag 0.
     *
     * @return lags 0 to {@code lags}; all NaN for a constant
     */
    public static double[] autocorrelation(double[] values, int lags) {
        double mean = Arrays.stream(values).average().orElse(Double.NaN);
        double[] out = new double[lags + 1];
        for (int lag = 0; lag <= lags; lag++) {
            for (int i = lag; i < values.length; i++) {
                out[lag] += (values[i] - mean) * (values[i - lag] - mean);
            }
        }
        double whole = out[0];
        for (int lag = 0; lag <= lags; lag++) {
            out[lag] = whole > 0 ? out[lag] / whole : Double.NaN;
        }
        return out;
    }
}
