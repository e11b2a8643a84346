package draftwitness.signal;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Curves, decays and the likeness of channels against values that others published or computed. */
class FittingTest {
    // spotless:off
    /** NIST StRD nonlinear regression, data set "Misra1a": x, y in turn. */
    private static final double[] MISRA1A = {
        77.6, 10.07, 114.9, 14.73, 141.1, 17.94, 190.8, 23.93, 239.9, 29.61, 289.0, 35.18, 332.8, 40.02,
        378.4, 44.82, 434.8, 50.76, 477.3, 55.05, 536.8, 61.01, 593.1, 66.40, 689.1, 75.47, 760.0, 81.78
    };

    /** NIST StRD nonlinear regression, data set "Chwirut2": x, y in turn. */
    private static final double[] CHWIRUT2 = {
        0.5, 92.9, 1, 57.1, 1.75, 31.05, 3.75, 11.5875, 5.75, 8.025, 0.875, 63.6, 2.25, 21.4, 3.25, 14.25,
        5.25, 8.475, 0.75, 63.8, 1.75, 26.8, 2.75, 16.4625, 4.75, 7.125, 0.625, 67.3, 1.25, 41, 2.25, 21.15,
        4.25, 8.175, 0.5, 81.5, 3, 13.12, 0.75, 59.9, 3, 14.62, 1.5, 32.9, 6, 5.44, 3, 12.56, 6, 5.44,
        1.5, 32, 3, 13.95, 0.5, 75.8, 2, 20, 4, 10.42, 0.75, 59.5, 2, 21.67, 5, 8.55, 0.75, 62, 2.25, 20.2,
        3.75, 7.76, 5.75, 3.75, 3, 11.81, 0.75, 54.7, 2.5, 23.7, 4, 11.55, 0.75, 61.3, 2.5, 17.7, 4, 8.74,
        0.75, 59.2, 2.5, 16.3, 4, 8.62, 0.5, 81, 6, 4.87, 3, 14.62, 0.5, 81.7, 2.75, 17.17, 0.5, 81.3,
        1.75, 28.9
    };
    // spotless:on

    private static double[] every(double[] pairs, int offset) {
        double[] out = new double[pairs.length / 2];
        for (int i = 0; i < out.length; i++) {
            out[i] = pairs[2 * i + offset];
        }
        return out;
    }

    private static void relative(double actual, double certified, double tolerance) {
        assertThat(actual).isCloseTo(certified, within(Math.abs(certified) * tolerance));
    }

    @ParameterizedTest
    @CsvSource(textBlock = """
            # start b1, start b2: both of NIST's starting points
            500, 0.0001
            250, 0.0005
            """)
    void givenMisra1a_whenFitted_thenTheCertifiedValues(double b1, double b2) {
        // NIST StRD, Misra1a: y = b1 (1 - exp(-b2 x)).
        CurveFit fit = CurveFit.of(
                every(MISRA1A, 0),
                every(MISRA1A, 1),
                new double[] {b1, b2},
                (x, b) -> b[0] * (1 - Math.exp(-b[1] * x)));
        assertThat(fit.converged()).isTrue();
        relative(fit.parameters()[0], 2.3894212918E+02, 1e-6);
        relative(fit.parameters()[1], 5.5015643181E-04, 1e-6);
        relative(fit.deviations()[0], 2.7070075241E+00, 1e-5);
        relative(fit.deviations()[1], 7.2668688436E-06, 1e-5);
        relative(fit.residualSquares(), 1.2455138894E-01, 1e-8);
        relative(fit.residualDeviation(), 1.0187876330E-01, 1e-8);
    }

    @ParameterizedTest
    @CsvSource(textBlock = """
            # start b1, b2, b3: both of NIST's starting points
            0.1,  0.01,  0.02
            0.15, 0.008, 0.010
            """)
    void givenChwirut2_whenFitted_thenTheCertifiedValues(double b1, double b2, double b3) {
        // NIST StRD, Chwirut2: y = exp(-b1 x) / (b2 + b3 x).
        CurveFit fit = CurveFit.of(
                every(CHWIRUT2, 0),
                every(CHWIRUT2, 1),
                new double[] {b1, b2, b3},
                (x, b) -> Math.exp(-b[0] * x) / (b[1] + b[2] * x));
        assertThat(fit.converged()).isTrue();
        relative(fit.parameters()[0], 1.6657666537E-01, 1e-6);
        relative(fit.parameters()[1], 5.1653291286E-03, 1e-6);
        relative(fit.parameters()[2], 1.2150007096E-02, 1e-6);
        relative(fit.deviations()[0], 3.8303286810E-02, 1e-5);
        relative(fit.deviations()[1], 6.6621605126E-04, 1e-5);
        relative(fit.deviations()[2], 1.5304234767E-03, 1e-5);
        relative(fit.residualSquares(), 5.1304802941E+02, 1e-8);
    }

    @ParameterizedTest
    @CsvSource(textBlock = """
            # ullage in US gallons, inches of water left of 2.00 after five minutes
            500,   0.7345
            1000,  1.2120
            2000,  1.5569
            5000,  1.8094
            10000, 1.9023
            25000, 1.9603
            """)
    void givenTheFirstMinuteOfAPressureDecay_whenFitted_thenThePublishedPressureAfterFive(double gallons, double left) {
        // California ARB TP-201.3 (1999): allowed decay from 2.00 in. of water, Pf = 2 exp(-500.887 / V) after 5 min,
        // so that the time constant is V / 100.1774 min. The fit sees one minute and must foretell the fifth.
        double[] minutes = new double[61];
        double[] inches = new double[61];
        for (int i = 0; i < minutes.length; i++) {
            minutes[i] = i / 60.0;
            inches[i] = 2 * Math.exp(-500.887 / gallons * minutes[i] / 5);
        }
        DecayFit fit = DecayFit.of(minutes, inches);
        assertThat(fit.start() * Math.exp(-5 * fit.rate())).isCloseTo(left, within(1e-4));
        relative(fit.timeConstant(), gallons / 100.1774, 1e-6);
    }

    @Test
    void givenADecayInNoise_whenFittedManyTimes_thenTheDeviationSaysHowFarOffItIs() {
        Random random = new Random(4);
        int inside = 0;
        for (int run = 0; run < 200; run++) {
            double[] x = new double[200];
            double[] y = new double[200];
            for (int i = 0; i < x.length; i++) {
                x[i] = 3 + i * 0.1;
                y[i] = -300 * Math.exp(-x[i] / 12) + random.nextGaussian();
            }
            DecayFit fit = DecayFit.of(x, y);
            assertThat(fit.start()).isCloseTo(-300, within(2.0));
            inside += Math.abs(fit.rate() - 1 / 12.0) <= 2 * fit.rateDeviation() ? 1 : 0;
        }
        assertThat(inside).isBetween(180, 200); // 95 % of 200 is 190; three standard deviations are 9
    }

    @Test
    void givenNoDecay_whenFitted_thenTheTimeConstantIsFarOrInfinite_andTheRateWithinItsDeviationOfZero() {
        double[] x = new double[100];
        double[] y = new double[100];
        Random random = new Random(5);
        for (int i = 0; i < x.length; i++) {
            x[i] = i;
            y[i] = -200 + random.nextGaussian();
        }
        DecayFit fit = DecayFit.of(x, y);
        assertThat(Math.abs(fit.rate())).isLessThan(3 * fit.rateDeviation());
    }

    @Test
    void givenTooFewPointsOrNothing_whenFitted_thenRefused() {
        double[] three = {1, 2, 3};
        assertThatThrownBy(() -> DecayFit.of(three, three)).isInstanceOf(IllegalArgumentException.class);
        assertThatThrownBy(() -> DecayFit.of(new double[] {0, 1, 2, 3}, new double[4]))
                .isInstanceOf(IllegalArgumentException.class);
        assertThatThrownBy(() -> CurveFit.of(three, three, new double[3], (x, p) -> x))
                .isInstanceOf(IllegalArgumentException.class);
    }

    /** A fixed vector, and itself two values later at half size with a small square wave on top. */
    private static final double[] V = {0, 1, 0.5, 3, 2, -1, 0, 5, 1, 0, 0.2, 2, -3, 0, 1, 4, 0, 0.5, 0.1, 0};

    private static final double[] W = {
        0.15, 0.1, 0.1, 0.4, 0.15, 1.4, 1.1, -0.4, 0.1, 2.4, 0.4, -0.1, 0.2, 1.1, -1.4, -0.1, 0.4, 1.9, 0.1, 0.35
    };

    @Test
    void givenTwoVectors_whenCompared_thenScipysCoherence() {
        // SciPy 1.17.1: scipy.signal.coherence(V, W, fs=10, window=get_window('hann', 8), nperseg=8, noverlap=4).
        double[] scipy = {
            0.196490521364441, 0.6505544233257362, 0.8092179068568605, 0.7824326485091756, 0.8651499433177716
        };
        double[] ours = Alikeness.coherence(V, W, 8, 4, Spectrum.Window.HANN);
        assertThat(ours).hasSize(5);
        for (int k = 0; k < scipy.length; k++) {
            assertThat(ours[k]).isCloseTo(scipy[k], within(1e-12));
        }
    }

    @ParameterizedTest
    @CsvSource(textBlock = """
            # lag, NumPy 2.4.6: numpy.corrcoef of the overlapping parts
            -5, 0.21225828822301837
            -2, 0.3569622905592437
            0, -0.36207701296214456
            2, 0.99451568200052
            5, -0.11075781083191576
            """)
    void givenTwoVectors_whenCorrelatedAtALag_thenNumpysCoefficient(int lag, double numpy) {
        assertThat(Alikeness.correlation(V, W, lag)).isCloseTo(numpy, within(1e-12));
    }

    @Test
    void givenASmoothMovementThatComesLater_whenTheLagIsSought_thenItIsFoundBetweenTheValues() {
        double[] x = new double[400];
        double[] y = new double[400];
        for (int i = 0; i < x.length; i++) {
            x[i] = Math.sin(0.07 * i) + Math.sin(0.19 * i + 1);
            y[i] = 0.4 * (Math.sin(0.07 * (i - 6.3)) + Math.sin(0.19 * (i - 6.3) + 1)) - 20;
        }
        Alikeness.Lag lag = Alikeness.lag(x, y, 40);
        assertThat(lag.values()).isCloseTo(6.3, within(0.05));
        assertThat(lag.correlation()).isGreaterThan(0.999);
        assertThat(Alikeness.lag(x, new double[400], 40).values()).isNaN();
    }

    @Test
    void givenUnrelatedNoise_whenCompared_thenCoherenceIsAboutOneOverTheSegments() {
        // Carter, Knapp and Nuttall (1973): without any relation the estimate's mean is 1 / segments.
        Random random = new Random(6);
        double[] x = random.doubles(6400, -1, 1).toArray();
        double[] y = random.doubles(6400, -1, 1).toArray();
        double[] coherence = Alikeness.coherence(x, y, 64, 0, Spectrum.Window.BOXCAR);
        double sum = 0;
        for (int k = 1; k < 32; k++) {
            sum += coherence[k] / 31;
        }
        assertThat(sum).isCloseTo(0.01, within(0.006)); // 100 segments; deviation of the mean about 0.0018
    }
}
