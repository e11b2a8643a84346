package draftwitness.signal;

/**
 * An exponential decay to zero through points: {@code y = start exp(-rate x)}, found without taking logarithms of
 * noise.
 *
 * <p>The deviations allow for neighbours that resemble each other: they grow by {@code sqrt((1 + r) / (1 - r))}, where
 * {@code r} is the residuals' correlation from one point to the next, if positive (effective sample size of a first
 * order autoregression: Bayley and Hammersley, J. R. Stat. Soc. Suppl. 8 (1946)).
 *
 * @param start the curve at {@code x = 0}
 * @param rate one over the time constant; 0 or negative when nothing decays
 * @param startDeviation standard deviation of {@code start}
 * @param rateDeviation standard deviation of {@code rate}
 * @param residualDeviation residual standard deviation
 * @param determination R squared: share of the movement that the curve explains; NaN for points that do not move
 */
public record DecayFit(
        double start,
        double rate,
        double startDeviation,
        double rateDeviation,
        double residualDeviation,
        double determination) {

    /**
     * Fits a decay.
     *
     * @param x rising, at least four
     * @param y one value each; not all zero
     * @throws IllegalArgumentException if there are fewer points, all have the same x, or the first values are zero
     */
    public static DecayFit of(double[] x, double[] y) {
        int n = x.length;
        if (n < 4 || y.length != n || !(x[n - 1] > x[0])) {
            throw new IllegalArgumentException("a decay needs four points one after the other, not " + n);
        }
        double origin = x[0];
        double span = x[n - 1] - origin;
        double[] u = new double[n]; // 0 to 1, so that both parameters are of like size
        for (int i = 0; i < n; i++) {
            u[i] = (x[i] - origin) / span;
        }
        CurveFit fit = CurveFit.of(u, y, begin(u, y), (at, p) -> p[0] * Math.exp(-p[1] * at));
        double[] p = fit.parameters();
        double wider = neighbours(u, y, p);
        double rate = p[1] / span;
        double grown = Math.exp(rate * origin);
        return new DecayFit(
                p[0] * grown,
                rate,
                fit.deviations()[0] * grown * wider,
                fit.deviations()[1] / span * wider,
                fit.residualDeviation(),
                determination(y, fit.residualSquares()));
    }

    /** The time constant, 1 / rate; infinite when nothing decays. */
    public double timeConstant() {
        return rate > 0 ? 1 / rate : Double.POSITIVE_INFINITY;
    }

    /** Standard deviation of the time constant, to first order; infinite when nothing decays. */
    public double timeConstantDeviation() {
        return rate > 0 ? rateDeviation / (rate * rate) : Double.POSITIVE_INFINITY;
    }

    /** Levels of the first and the last fifth give the beginning. */
    private static double[] begin(double[] u, double[] y) {
        int few = Math.max(1, y.length / 5);
        double first = 0;
        double last = 0;
        for (int i = 0; i < few; i++) {
            first += y[i] / few;
            last += y[y.length - 1 - i] / few;
        }
        double share = last / first;
        if (!Double.isFinite(share)) {
            throw new IllegalArgumentException("nothing there to decay");
        }
        double apart = u[y.length - 1 - few / 2] - u[few / 2];
        return new double[] {first, -Math.log(Math.max(share, 1e-3)) / Math.max(apart, 0.1)};
    }

    private static double neighbours(double[] u, double[] y, double[] p) {
        double before = 0;
        double product = 0;
        double squares = 0;
        for (int i = 0; i < u.length; i++) {
            double r = y[i] - p[0] * Math.exp(-p[1] * u[i]);
            product += r * before;
            squares += r * r;
            before = r;
        }
        double r = squares > 0 ? Math.min(0.98, product / squares) : 0;
        return r > 0 ? Math.sqrt((1 + r) / (1 - r)) : 1;
    }

    private static double determination(double[] y, double rest) {
        Moments moments = new Moments();
        for (double v : y) {
            moments.add(v);
        }
        double all = moments.deviation() * moments.deviation() * (y.length - 1);
        return all > 0 ? 1 - rest / all : Double.NaN;
    }
}
