package draftwitness.signal;

/**
 * How alike two channels move: by how much one is late, and which frequencies they share. Pure; equally spaced values,
 * oldest first.
 *
 * <p>References: Welch, IEEE Trans. Audio Electroacoust. 15 (1967); Carter, Knapp and Nuttall, IEEE Trans. Audio
 * Electroacoust. 21 (1973).
 */
public final class Alikeness {
    private Alikeness() {}

    /**
     * Magnitude-squared coherence by Welch's method: {@code |Pxy|^2 / (Pxx Pyy)}, segments with their mean taken off.
     *
     * @param segment values in a segment, even, at most as many as there are
     * @param overlap values shared by neighbours, below {@code segment}
     * @return 0 to 1 at {@code i / segment} cycles a value, {@code i} from 0 to {@code segment / 2}; NaN where one has
     *     no power. A single segment gives 1 everywhere, so there must be at least two
     */
    public static double[] coherence(double[] x, double[] y, int segment, int overlap, Spectrum.Window window) {
        if (x.length != y.length || segment < 2 || overlap < 0 || overlap >= segment) {
            throw new IllegalArgumentException(
                    "segment " + segment + ", overlap " + overlap + " of " + x.length + " and " + y.length + " values");
        }
        if (x.length < 2 * segment - overlap) {
            throw new IllegalArgumentException(x.length + " values do not hold two segments of " + segment);
        }
        double[] weights = Spectrum.weights(segment, window);
        double[][] lines = new double[segment / 2 + 1][4];
        for (int from = 0; from + segment <= x.length; from += segment - overlap) {
            double[] a = Spectrum.weighted(x, from, weights);
            double[] b = Spectrum.weighted(y, from, weights);
            for (int k = 0; k < lines.length; k++) {
                add(lines[k], a, b, k);
            }
        }
        double[] out = new double[lines.length];
        for (int k = 0; k < out.length; k++) {
            double[] l = lines[k];
            double both = l[0] * l[1];
            out[k] = both > 0 ? Math.min(1, (l[2] * l[2] + l[3] * l[3]) / both) : Double.NaN;
        }
        return out;
    }

    /** Adds one line of both segments: powers, and the cross product's real and imaginary part. */
    private static void add(double[] line, double[] a, double[] b, int k) {
        double ar = 0;
        double ai = 0;
        double br = 0;
        double bi = 0;
        for (int i = 0; i < a.length; i++) {
            double angle = 2 * Math.PI * ((long) k * i % a.length) / a.length;
            double cos = Math.cos(angle);
            double sin = Math.sin(angle);
            ar += a[i] * cos;
            ai -= a[i] * sin;
            br += b[i] * cos;
            bi -= b[i] * sin;
        }
        line[0] += ar * ar + ai * ai;
        line[1] += br * br + bi * bi;
        line[2] += ar * br + ai * bi;
        line[3] += ar * bi - ai * br;
    }

    /**
     * A delay found by cross-correlation.
     *
     * @param values by how many values {@code y} is late; negative when early; between values by a parabola
     * @param correlation there, -1 to 1
     */
    public record Lag(double values, double correlation) {}

    /**
     * By how much {@code y} comes after {@code x}: the lag of the largest correlation of the overlapping parts.
     *
     * @param most lags from {@code -most} to {@code most} are tried; below half the number of values
     * @return NaN for both if one does not move
     */
    public static Lag lag(double[] x, double[] y, int most) {
        if (x.length != y.length || most < 1 || 2 * most >= x.length) {
            throw new IllegalArgumentException("lags to " + most + " of " + x.length + " and " + y.length + " values");
        }
        double[] correlation = new double[2 * most + 1];
        int best = -1;
        for (int lag = -most; lag <= most; lag++) {
            correlation[lag + most] = correlation(x, y, lag);
            if (best < 0 || Double.isNaN(correlation[best]) || correlation[lag + most] > correlation[best]) {
                best = lag + most;
            }
        }
        if (!(correlation[best] <= 1)) {
            return new Lag(Double.NaN, Double.NaN);
        }
        double offset = 0;
        if (best > 0 && best < 2 * most) {
            double a = correlation[best - 1];
            double b = correlation[best];
            double c = correlation[best + 1];
            double bend = a - 2 * b + c;
            offset = bend < 0 ? 0.5 * (a - c) / bend : 0;
        }
        return new Lag(best - most + offset, correlation[best]);
    }

    /** Pearson's correlation of {@code x[i]} with {@code y[i + lag]} where both exist. */
    static double correlation(double[] x, double[] y, int lag) {
        int from = Math.max(0, -lag);
        int to = Math.min(x.length, x.length - lag);
        double meanX = 0;
        double meanY = 0;
        for (int i = from; i < to; i++) {
            meanX += x[i] / (to - from);
            meanY += y[i + lag] / (to - from);
        }
        double xy = 0;
        double xx = 0;
        double yy = 0;
        for (int i = from; i < to; i++) {
            double a = x[i] - meanX;
            double b = y[i + lag] - meanY;
            xy += a * b;
            xx += a * a;
            yy += b * b;
        }
        return xx > 0 && yy > 0 ? Math.max(-1, Math.min(1, xy / Math.sqrt(xx * yy))) : Double.NaN;
    }
}
