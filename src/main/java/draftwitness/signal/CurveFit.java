package draftwitness.signal;

import java.util.Arrays;

/**
 * A curve through points by nonlinear least squares. Pure.
 *
 * <p>Levenberg-Marquardt with Marquardt's scaling by the diagonal and slopes by central differences: steps of
 * Gauss-Newton near the solution, short steps down the gradient far from it. References: Levenberg, Quart. Appl. Math.
 * 2 (1944); Marquardt, J. Soc. Indust. Appl. Math. 11 (1963). The deviations are those of the linear problem at the
 * solution, as NIST StRD certifies them.
 */
public final class CurveFit {
    private static final int MOST_STEPS = 500;
    private static final double STANDS_STILL = 1e-12;
    private static final double DIFFERENCE = Math.cbrt(Math.ulp(1.0));

    private final double[] parameters;
    private final double[] deviations;
    private final double residualSquares;
    private final double residualDeviation;
    private final boolean converged;

    private CurveFit(
            double[] parameters,
            double[] deviations,
            double residualSquares,
            double residualDeviation,
            boolean converged) {
        this.parameters = parameters;
        this.deviations = deviations;
        this.residualSquares = residualSquares;
        this.residualDeviation = residualDeviation;
        this.converged = converged;
    }

    /** A curve of some parameters. */
    public interface Model {
        /** Its value at {@code x}. */
        double at(double x, double[] parameters);
    }

    /** The curve's parameters, as the model takes them. */
    public double[] parameters() {
        return parameters.clone();
    }

    /** Standard deviation of each parameter; NaN if the points do not determine it. */
    public double[] deviations() {
        return deviations.clone();
    }

    /** Sum of the squared residuals. */
    public double residualSquares() {
        return residualSquares;
    }

    /** Residual standard deviation, with as many degrees of freedom as points less parameters. */
    public double residualDeviation() {
        return residualDeviation;
    }

    /** False if the steps were used up before the fit stood still. */
    public boolean converged() {
        return converged;
    }

    /**
     * Fits a curve.
     *
     * @param x where the points are
     * @param y what was measured there
     * @param start parameters to begin with
     * @throws IllegalArgumentException if there are not more points than parameters, or the model has no finite value
     *     at the start
     */
    public static CurveFit of(double[] x, double[] y, double[] start, Model model) {
        if (x.length != y.length || x.length <= start.length) {
            throw new IllegalArgumentException(
                    x.length + " and " + y.length + " values for " + start.length + " parameters");
        }
        double[] p = start.clone();
        double squares = squares(x, y, p, model);
        if (!Double.isFinite(squares)) {
            throw new IllegalArgumentException("no finite curve at " + Arrays.toString(start));
        }
        double damping = 1e-3;
        boolean still = false;
        for (int step = 0; step < MOST_STEPS && !still; step++) {
            Normal normal = Normal.at(x, y, p, model);
            double[] move = normal.step(damping);
            double[] next = sum(p, move);
            double after = squares(x, y, next, model);
            if (after <= squares) {
                still = small(move, p) && squares - after <= STANDS_STILL * squares;
                p = next;
                squares = after;
                damping = Math.max(damping / 10, 1e-15);
            } else {
                still = damping > 1e12; // no direction leads down any more
                damping *= 10;
            }
        }
        double deviation = Math.sqrt(squares / (x.length - p.length));
        return new CurveFit(p, Normal.at(x, y, p, model).deviations(deviation), squares, deviation, still);
    }

    private static double squares(double[] x, double[] y, double[] p, Model model) {
        double sum = 0;
        for (int i = 0; i < x.length; i++) {
            double r = y[i] - model.at(x[i], p);
            sum += r * r;
        }
        return sum;
    }

    private static double[] sum(double[] a, double[] b) {
        double[] out = a.clone();
        for (int i = 0; i < out.length; i++) {
            out[i] += b[i];
        }
        return out;
    }

    private static boolean small(double[] move, double[] p) {
        for (int i = 0; i < p.length; i++) {
            if (!(Math.abs(move[i]) <= STANDS_STILL * (Math.abs(p[i]) + Double.MIN_NORMAL))) {
                return false;
            }
        }
        return true;
    }

    /** The normal equations at a point: J'J and J'r, in the scale of each parameter's own column. */
    private static final class Normal {
        private final double[][] matrix;
        private final double[] right;
        private final double[] scale;

        private Normal(double[][] matrix, double[] right, double[] scale) {
            this.matrix = matrix;
            this.right = right;
            this.scale = scale;
        }

        static Normal at(double[] x, double[] y, double[] p, Model model) {
            int m = p.length;
            double[][] matrix = new double[m][m];
            double[] right = new double[m];
            double[] slope = new double[m];
            for (int i = 0; i < x.length; i++) {
                double r = y[i] - model.at(x[i], p);
                for (int j = 0; j < m; j++) {
                    slope[j] = slope(x[i], p, j, model);
                }
                for (int j = 0; j < m; j++) {
                    right[j] += slope[j] * r;
                    for (int k = 0; k < m; k++) {
                        matrix[j][k] += slope[j] * slope[k];
                    }
                }
            }
            return scaled(matrix, right);
        }

        private static double slope(double x, double[] p, int j, Model model) {
            double[] moved = p.clone();
            double h = DIFFERENCE * Math.max(Math.abs(p[j]), 1e-12);
            moved[j] = p[j] + h;
            double above = model.at(x, moved);
            double up = moved[j];
            moved[j] = p[j] - h;
            return (above - model.at(x, moved)) / (up - moved[j]);
        }

        private static Normal scaled(double[][] matrix, double[] right) {
            int m = right.length;
            double[] scale = new double[m];
            for (int j = 0; j < m; j++) {
                scale[j] = matrix[j][j] > 0 ? Math.sqrt(matrix[j][j]) : 1;
            }
            for (int j = 0; j < m; j++) {
                right[j] /= scale[j];
                for (int k = 0; k < m; k++) {
                    matrix[j][k] /= scale[j] * scale[k];
                }
            }
            return new Normal(matrix, right, scale);
        }

        /** The move that damping leaves. */
        double[] step(double damping) {
            int m = right.length;
            double[][] a = new double[m][];
            for (int j = 0; j < m; j++) {
                a[j] = matrix[j].clone();
                a[j][j] += damping;
            }
            double[] move = solve(a, right.clone());
            for (int j = 0; j < m; j++) {
                move[j] /= scale[j];
            }
            return move;
        }

        /** Square roots of the diagonal of the inverse, times the residual deviation. */
        double[] deviations(double residual) {
            int m = right.length;
            double[] out = new double[m];
            for (int j = 0; j < m; j++) {
                double[][] a = new double[m][];
                for (int k = 0; k < m; k++) {
                    a[k] = matrix[k].clone();
                }
                double[] unit = new double[m];
                unit[j] = 1;
                double variance = solve(a, unit)[j];
                out[j] = variance > 0 ? residual * Math.sqrt(variance) / scale[j] : Double.NaN;
            }
            return out;
        }

        /** Elimination with row pivots; NaN where the equations do not determine the answer. */
        private static double[] solve(double[][] a, double[] b) {
            int m = b.length;
            for (int c = 0; c < m; c++) {
                int pivot = c;
                for (int r = c + 1; r < m; r++) {
                    pivot = Math.abs(a[r][c]) > Math.abs(a[pivot][c]) ? r : pivot;
                }
                double[] row = a[pivot];
                a[pivot] = a[c];
                a[c] = row;
                double value = b[pivot];
                b[pivot] = b[c];
                b[c] = value;
                for (int r = c + 1; r < m; r++) {
                    double factor = a[r][c] / a[c][c];
                    for (int k = c; k < m; k++) {
                        a[r][k] -= factor * a[c][k];
                    }
                    b[r] -= factor * b[c];
                }
            }
            for (int c = m - 1; c >= 0; c--) {
                for (int k = c + 1; k < m; k++) {
                    b[c] -= a[c][k] * b[k];
                }
                b[c] /= a[c][c];
            }
            return b;
        }
    }
}
