package draftwitness.furnace;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import org.assertj.core.data.Percentage;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** What moves: liquid columns, lags and gusts against published values; the source stands beside each. */
final class DynamicsTest {
    /**
     * U-tube of total column length L: f = sqrt(2g/L)/(2 pi), any physics text. L = 0.40 m gives T = 0.8976 s, printed
     * as 0.9 s (textbook problem "water to 20 cm in each limb"); the other rows are the formula at g = 9.80665 m/s2.
     */
    @ParameterizedTest
    @CsvSource({"0.40, 1.1145", "0.50, 0.99681", "1.0, 0.70485", "1.2, 0.64344"})
    void givenWaterColumnAndStillGas_whenDisplaced_thenSwingsAsUTube(double metres, double hertz) {
        Slug slug = new Slug(metres);
        slug.fillTo(0.5);
        slug.displace(0.004);
        double dt = 0.001;
        double before = slug.displacement();
        double first = -1;
        double last = -1;
        int crossings = 0;
        for (int i = 1; i < 20_000 && crossings < 9; i++) {
            slug.step(0, 1.05, 0, dt);
            double x = slug.displacement();
            if (before < 0 && x >= 0) {
                last = dt * (i - x / (x - before));
                first = first < 0 ? last : first;
                crossings++;
            }
            before = x;
        }
        assertThat(crossings).isEqualTo(9);
        assertThat(8 / (last - first)).isCloseTo(hertz, Percentage.withPercentage(0.1));
    }

    /** Step response 1 - exp(-t/tau) of a first-order lag, any control text. */
    @ParameterizedTest
    @CsvSource({"1, 0.63212", "2, 0.86466", "3, 0.95021", "4, 0.98168", "5, 0.99326", "0.693147, 0.5"})
    void givenStep_whenSomeTimeConstantsPassed_thenShareReachedAsPublished(double taus, double share) {
        Lag lag = new Lag(0);
        double tau = 0.8;
        int steps = 1000;
        for (int i = 0; i < steps; i++) {
            lag.stepHeld(1, tau, taus * tau / steps);
        }
        assertThat(lag.value()).isCloseTo(share, within(1e-5));
    }

    /**
     * A lag follows a ramp of slope one delayed by its time constant, once the start is forgotten: any control text.
     */
    @Test
    void givenRamp_whenFollowedInCoarseSteps_thenLagsByItsTimeConstant() {
        Lag lag = new Lag(0);
        for (int i = 1; i <= 100; i++) {
            lag.step(i * 0.5, 0.8, 0.5);
        }
        assertThat(lag.value()).isCloseTo(50 - 0.8, within(1e-9));
    }

    /**
     * Leak-down of a shut tube: pressure falls as exp(-t/tau), and tau goes with volume over conductance, so half the
     * leak takes twice the time; the form of the vapour-recovery test TP-201.3 (California Air Resources Board, 1999).
     */
    @Test
    void givenTubePinchedOff_whenDiaphragmLeaks_thenExponentialWithTauByTheLeak() {
        double fast = leakDownTau(0.02);
        assertThat(fast).isCloseTo(Tube.CLEAN_SECONDS / 0.02, Percentage.withPercentage(2));
        assertThat(leakDownTau(0.01) / fast).isCloseTo(2, within(0.05));
    }

    private static double leakDownTau(double leak) {
        Tube tube = new Tube();
        for (int i = 0; i < 1000; i++) {
            tube.step(-300, 1, leak, 0.01);
        }
        tube.step(-300, 0, leak, 0.01); // pinching takes this long
        double start = tube.value();
        for (int i = 0; i < 100; i++) {
            tube.step(-300, 0, leak, 0.01);
        }
        double first = tube.value();
        for (int i = 0; i < 100; i++) {
            tube.step(-300, 0, leak, 0.01);
        }
        assertThat(tube.value() / first).isCloseTo(first / start, within(1e-9)); // equal shares in equal times
        return 1 / Math.log(start / first);
    }

    @Test
    void givenBlockedAndLeakingTube_thenLateAndLow() {
        Tube tube = new Tube();
        for (int i = 0; i < 10_000; i++) {
            tube.step(-300, Tube.conductance(0.5), Tube.leak(0.2), 0.01);
        }
        assertThat(tube.value()).isGreaterThan(-100).isLessThan(-10);
    }

    /** MIL-F-8785C (1980) 3.7, along-wind, L = 100, sigma = 1. */
    @ParameterizedTest
    @CsvSource({"0, 63.6620", "0.5, 50.9296", "1, 31.8310", "2, 12.7324", "10, 0.630317"})
    void givenSpatialFrequency_thenDrydenSpectrum(double lengthTimesOmega, double value) {
        assertThat(Gust.spectrum(1, 100, lengthTimesOmega / 100)).isCloseTo(value, Percentage.withPercentage(1e-3));
    }

    /** The published spectrum integrates to sigma^2 = 1 over 0 ... infinity (catches a factor of two). */
    @Test
    void givenDrydenSpectrum_whenIntegrated_thenVariance() {
        double sum = 0;
        double step = 1e-4;
        for (double w = step / 2; w < 50; w += step) {
            sum += Gust.spectrum(1, 100, w) * step;
        }
        double tail = 2 / (Math.PI * 100 * 50); // of 1/(pi/2 L w^2), from 50 rad/m on
        assertThat(sum + tail).isCloseTo(1, within(1e-5));
    }

    /**
     * What the generator really puts out, as power in bands: the share of a Dryden process below spatial frequency w is
     * (2/pi) atan(L w), the integral of the spectrum of MIL-F-8785C. Bands by averaging windowed periodograms.
     */
    @Test
    void givenGenerator_whenMeasured_thenBandsOfDrydenSpectrum() {
        double tau = 0.5;
        double dt = 0.02;
        Gust gust = new Gust(Noise.of(42, "gust test"));
        int n = 2048;
        int runs = 1500;
        double base = 2 * Math.PI / (n * dt) * tau;
        double[] edges = {1.5 * base, 6.5 * base, 20.5 * base, 60.5 * base, 150.5 * base}; // omega tau
        double[] bands = new double[edges.length - 1];
        double[] x = new double[n];
        for (int r = 0; r < runs; r++) {
            for (int i = 0; i < n; i++) {
                x[i] = gust.step(tau, dt) * (1 - Math.cos(2 * Math.PI * i / n));
            }
            addBandPower(x, dt, tau, edges, bands);
        }
        for (int b = 0; b < bands.length; b++) {
            double expected = 2 / Math.PI * (Math.atan(edges[b + 1]) - Math.atan(edges[b]));
            assertThat(bands[b] / runs).as("band " + b).isCloseTo(expected, Percentage.withPercentage(5));
        }
    }

    private static void addBandPower(double[] x, double dt, double tau, double[] edges, double[] bands) {
        int n = x.length;
        double base = 2 * Math.PI / (n * dt);
        int most = (int) (edges[edges.length - 1] / tau / base);
        for (int k = 1; k <= most; k++) {
            double re = 0;
            double im = 0;
            double c = Math.cos(2 * Math.PI * k / n);
            double s = Math.sin(2 * Math.PI * k / n);
            double wr = 1;
            double wi = 0;
            for (int i = 0; i < n; i++) {
                re += x[i] * wr;
                im += x[i] * wi;
                double next = wr * c - wi * s;
                wi = wr * s + wi * c;
                wr = next;
            }
            double power = 2 * (re * re + im * im) / ((double) n * n) / 1.5; // 1.5: mean square of the Hann window
            double omegaTau = k * base * tau;
            for (int b = 0; b < bands.length; b++) {
                if (omegaTau >= edges[b] && omegaTau < edges[b + 1]) {
                    bands[b] += power;
                }
            }
        }
    }

    /** Low-altitude rule of MIL-F-8785C: at 20 ft the along-wind scale is h/(0.177 + 0.000823 h)^1.2 = 143.59 ft. */
    @Test
    void givenTwentyFeet_thenGustLengthOfLowAltitudeRule() {
        double feet = 20 / Math.pow(0.177 + 0.000823 * 20, 1.2);
        assertThat(feet).isCloseTo(143.59, within(0.01));
        assertThat(Weather.GUST_LENGTH_METRES).isCloseTo(feet * 0.3048, within(0.05));
    }
}
