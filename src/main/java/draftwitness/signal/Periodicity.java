package draftwitness.signal;

/**
 * The strongest rhythm in a stretch, and how much of the movement it explains.
 *
 * @param hertz frequency of the strongest line, interpolated; 0 when there is none
 * @param share share of the power (trend taken off) within a line's width of it, 0 to 1
 * @param repeats autocorrelation one period later, -1 to 1: near 1 when the movement repeats itself
 */
public record Periodicity(double hertz, double share, double repeats) {
    private static final Periodicity NONE = new Periodicity(0, 0, 0);
    private static final int FEWEST = 16;

    /**
     * Looks for it from two periods in the stretch up to two fifths of the rate.
     *
     * @param values equally spaced, oldest first; fewer than 16 give none
     * @param rate values a second
     */
    public static Periodicity of(double[] values, double rate) {
        int n = values.length;
        if (n < FEWEST) {
            return NONE;
        }
        double[] level = withoutTrend(values);
        // Halves overlapping by half once they are long enough to resolve; else the whole stretch at once.
        int segment = n >= 8 * rate ? Math.max(FEWEST, n / 2) : n;
        double[] density = Spectrum.welch(level, rate, segment, segment / 2, Spectrum.Window.HANN);
        int top = (int) Math.min(density.length - 2, Math.floor(0.4 * segment));
        int peak = 0;
        double total = 0;
        for (int k = 1; k < density.length; k++) {
            total += density[k];
            if (k >= 2 && k <= top && (peak == 0 || density[k] > density[peak])) {
                peak = k;
            }
        }
        if (peak == 0 || !(total > 0)) {
            return NONE;
        }
        double near = 0;
        for (int k = Math.max(1, peak - 2); k <= Math.min(density.length - 1, peak + 2); k++) {
            near += density[k];
        }
        double hertz = (peak + offset(density, peak)) * rate / segment;
        int lag = (int) Math.round(rate / hertz);
        double repeats = lag >= 1 && lag < n ? Spectrum.autocorrelation(level, lag)[lag] * n / (n - lag) : 0;
        return new Periodicity(hertz, near / total, Math.max(-1, Math.min(1, repeats)));
    }

    /** Parabola through the logarithms of three lines. */
    private static double offset(double[] density, int peak) {
        double a = Math.log(density[peak - 1]);
        double b = Math.log(density[peak]);
        double c = Math.log(density[peak + 1]);
        double offset = (a - c) / (2 * (a - 2 * b + c));
        return offset > -0.5 && offset < 0.5 ? offset : 0;
    }

    private static double[] withoutTrend(double[] values) {
        double[] x = new double[values.length];
        for (int i = 0; i < x.length; i++) {
            x[i] = i;
        }
        LineFit line = LineFit.of(x, values);
        double[] out = new double[values.length];
        for (int i = 0; i < x.length; i++) {
            out[i] = values[i] - line.intercept() - line.slope() * i;
        }
        return out;
    }
}
