package draftwitness.signal;

/**
 * A straight line through points by least squares.
 *
 * @param slope change of y for each unit of x
 * @param intercept y at x = 0
 * @param slopeDeviation standard deviation of the slope
 * @param interceptDeviation standard deviation of the intercept
 * @param residualDeviation residual standard deviation ({@code n - 2} degrees of freedom)
 * @param determination R squared
 */
public record LineFit(
        double slope,
        double intercept,
        double slopeDeviation,
        double interceptDeviation,
        double residualDeviation,
        double determination) {

    /**
     * Fits a line.
     *
     * @throws IllegalArgumentException if there are fewer than three points, or all have the same x
     */
    public static LineFit of(double[] x, double[] y) {
        int n = x.length;
        if (n < 3 || y.length != n) {
            throw new IllegalArgumentException("a line needs three points, not " + n + " and " + y.length);
        }
        double meanX = mean(x);
        double meanY = mean(y);
        double sxx = 0;
        double sxy = 0;
        double syy = 0;
        for (int i = 0; i < n; i++) {
            sxx += (x[i] - meanX) * (x[i] - meanX);
            sxy += (x[i] - meanX) * (y[i] - meanY);
            syy += (y[i] - meanY) * (y[i] - meanY);
        }
        if (!(sxx > 0)) {
            throw new IllegalArgumentException("all points have x = " + meanX);
        }
        double slope = sxy / sxx;
        double intercept = meanY - slope * meanX;
        double rest = 0;
        for (int i = 0; i < n; i++) {
            double r = y[i] - intercept - slope * x[i];
            rest += r * r;
        }
        double deviation = Math.sqrt(rest / (n - 2));
        return new LineFit(
                slope,
                intercept,
                deviation / Math.sqrt(sxx),
                deviation * Math.sqrt(1.0 / n + meanX * meanX / sxx),
                deviation,
                syy > 0 ? 1 - rest / syy : 1);
    }

    private static double mean(double[] values) {
        double sum = 0;
        for (double v : values) {
            sum += v;
        }
        return sum / values.length;
    }
}
