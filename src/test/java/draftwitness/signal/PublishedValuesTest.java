package draftwitness.signal;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.junit.jupiter.api.Test;

/** Each computation against values that others published, or that an independent library computed. */
class PublishedValuesTest {
    /** A fixed vector; results for it were computed with SciPy. */
    private static final double[] V = {0, 1, 0.5, 3, 2, -1, 0, 5, 1, 0, 0.2, 2, -3, 0, 1, 4, 0, 0.5, 0.1, 0};

    // spotless:off
    /** NIST StRD linear regression, data set "Norris": x, y in turn. */
    private static final double[] NORRIS = {
        0.2, 0.1, 337.4, 338.8, 118.2, 118.1, 884.6, 888.0, 10.1, 9.2, 226.5, 228.1, 666.3, 668.5, 996.3, 998.5,
        448.6, 449.1, 777.0, 778.9, 558.2, 559.2, 0.4, 0.3, 0.6, 0.1, 775.5, 778.1, 666.9, 668.8, 338.0, 339.3,
        447.5, 448.9, 11.6, 10.8, 556.0, 557.7, 228.1, 228.3, 995.8, 998.0, 887.6, 888.8, 120.2, 119.6, 0.3, 0.3,
        0.3, 0.6, 556.8, 557.6, 339.1, 339.3, 887.2, 888.0, 999.0, 998.5, 779.0, 778.9, 11.1, 10.2, 118.3, 117.6,
        229.2, 228.9, 669.1, 668.4, 448.9, 449.2, 0.5, 0.2
    };
    // spotless:on

    @Test
    void givenNistEwmaData_whenAveraged_thenTheHandbooksSeriesAndLimits() {
        // NIST/SEMATECH e-Handbook of Statistical Methods, 6.3.2.4.
        double[] data = {
            52.0, 47.0, 53.0, 49.3, 50.1, 47.0, 51.0, 50.1, 51.2, 50.5, 49.6, 47.6, 49.9, 51.3, 47.8, 51.2, 52.6, 52.4,
            53.6, 52.1
        };
        double[] printed = {
            50.60, 49.52, 50.56, 50.18, 50.16, 49.21, 49.75, 49.85, 50.26, 50.33, 50.11, 49.36, 49.52, 50.05, 49.38,
            49.92, 50.73, 51.23, 51.94, 51.99
        };
        Ewma ewma = new Ewma(0.3, 50);
        for (int i = 0; i < data.length; i++) {
            assertThat(ewma.add(data[i])).isCloseTo(printed[i], within(0.0051));
        }
        assertThat(50 + Ewma.limit(0.3, 2.0539, 3)).isCloseTo(52.5884, within(1e-4));
    }

    @Test
    void givenNistCusumData_whenSummed_thenTheHandbooksSums_andFirstSignalAtGroup14() {
        // NIST/SEMATECH e-Handbook of Statistical Methods, 6.3.2.3.
        double[] data = {
            324.925, 324.675, 324.725, 324.350, 325.350, 325.225, 324.125, 324.525, 325.225, 324.600, 324.625, 325.150,
            328.325, 327.250, 327.825, 328.500, 326.675, 327.775, 326.875, 328.350
        };
        double[] high = {0, 0, 0, 0, .03, 0, 0, 0, 0, 0, 0, 0, 3.01, 4.94, 7.45, 10.63, 11.99, 14.44, 16.00, 19.04};
        double[] low = {0, .01, 0, .33, 0, 0, .56, .72, .17, .25, .31, 0, 0, 0, 0, 0, 0, 0, 0, 0};
        Cusum cusum = new Cusum(325, 0.3175, 4.1959);
        List<Integer> signals = new ArrayList<>();
        for (int i = 0; i < data.length; i++) {
            if (cusum.add(data[i])) {
                signals.add(i + 1);
            }
            assertThat(cusum.high()).isCloseTo(high[i], within(0.006));
            assertThat(cusum.low()).isCloseTo(low[i], within(0.006));
        }
        assertThat(signals).containsExactly(14, 15, 16, 17, 18, 19, 20);
    }

    @Test
    void givenMontgomeryCusumData_whenSummed_thenTheBooksSums() {
        // Montgomery and Runger, Applied Statistics and Probability for Engineers, 3rd ed., Example 16-6.
        double[] data = {
            102.0, 94.8, 98.3, 98.4, 102.0, 98.5, 99.0, 97.7, 100.0, 98.1, 101.3, 98.7, 101.1, 98.4, 97.0, 96.7, 100.3,
            101.4, 97.2, 101.0
        };
        double[] high = {2.0, 0, 0, 0, 2.0, .5, 0, 0, 0, 0, 1.3, 0, 1.1, 0, 0, 0, .3, 1.7, 0, 1.0};
        double[] low = {0, 3.2, 2.9, 2.5, 0, 0, 0, .3, 0, 0, 0, 0, 0, 0, 1.0, 2.3, 0, 0, .8, 0};
        Cusum cusum = new Cusum(99, 1, 10);
        for (int i = 0; i < data.length; i++) {
            assertThat(cusum.add(data[i])).isFalse();
            assertThat(cusum.high()).isCloseTo(high[i], within(1e-9));
            assertThat(cusum.low()).isCloseTo(low[i], within(1e-9));
        }
    }

    @Test
    void givenExamplesOf40Cfr1065_whenComputed_thenTheirStatistics() {
        // 40 CFR 1065.602 (b), (c), (d): mean, standard deviation, root mean square; (e): accuracy.
        Moments m = new Moments();
        for (double v : new double[] {10.60, 11.91, 11.09}) {
            m.add(v);
        }
        assertThat(m.mean()).isCloseTo(11.20, within(0.005));
        assertThat(m.deviation()).isCloseTo(0.6619, within(0.00005));
        assertThat(m.rootMeanSquare()).isCloseTo(11.21, within(0.005));
        m.clear();
        for (double v : new double[] {1806.4, 1803.1, 1798.9}) {
            m.add(v);
        }
        assertThat(Math.abs(m.mean() - 1800.0)).isCloseTo(2.8, within(0.05));
    }

    @Test
    void givenNistNorris_whenFitted_thenTheCertifiedValues() {
        double[] x = new double[NORRIS.length / 2];
        double[] y = new double[x.length];
        for (int i = 0; i < x.length; i++) {
            x[i] = NORRIS[2 * i];
            y[i] = NORRIS[2 * i + 1];
        }
        LineFit fit = LineFit.of(x, y);
        assertThat(fit.slope()).isCloseTo(1.00211681802045, within(1e-9));
        assertThat(fit.intercept()).isCloseTo(-0.262323073774029, within(1e-9));
        assertThat(fit.slopeDeviation()).isCloseTo(0.429796848199937E-03, within(1e-12));
        assertThat(fit.interceptDeviation()).isCloseTo(0.232818234301152, within(1e-9));
        assertThat(fit.residualDeviation()).isCloseTo(0.884796396144373, within(1e-9));
        assertThat(fit.determination()).isCloseTo(0.999993745883712, within(1e-9));
    }

    @Test
    void givenTwoOutliers_whenHampelFiltered_thenBothBecomeTheMedian_andNothingElseChanges() {
        // Hampel, J. Am. Stat. Assoc. 69 (1974); expected values computed with SciPy medians.
        double[] data = {1.0, 1.1, 0.9, 1.0, 9.0, 1.1, 1.0, 0.9, 1.0, -6.0, 1.0, 1.1};
        double[] expected = data.clone();
        expected[4] = 1.0;
        expected[9] = 1.0;
        assertThat(Robust.hampel(data, 2, 3, 0.05)).containsExactly(expected, within(1e-12));
        assertThat(Robust.mad(data)).isCloseTo(0.1, within(1e-12)); // scipy.stats.median_abs_deviation
        assertThat(Robust.SIGMA_OF_MAD * Robust.mad(data)).isCloseTo(0.1482602, within(1e-7));
    }

    @Test
    void givenFixedVector_whenWelch_thenTheDensitiesOfScipy() {
        // scipy.signal.welch(fs=10, window='hann', nperseg=8, noverlap=4, detrend='constant', scaling='density')
        assertThat(Spectrum.welch(V, 10, 8, 4, Spectrum.Window.HANN))
                .containsExactly(
                        new double[] {0.1490833934, 0.6292548399, 1.1578998766, 0.7092649110, 0.3662552309},
                        within(1e-8));
    }

    @Test
    void givenOneBoxcarSegment_whenWelch_thenParsevalHolds() {
        double[] density = Spectrum.welch(V, 10, 20, 0, Spectrum.Window.BOXCAR);
        assertThat(Arrays.stream(density).sum() * 0.5).isCloseTo(2.913275, within(1e-12)); // population variance of V
    }

    @Test
    void givenFixedVector_whenAutocorrelated_thenTheBiasedEstimateOfScipy() {
        assertThat(Spectrum.autocorrelation(V, 7))
                .containsExactly(
                        new double[] {
                            1,
                            -0.077210785,
                            -0.328092096,
                            -0.157308785,
                            0.334934052,
                            -0.308229141,
                            -0.045024071,
                            0.154678583
                        },
                        within(1e-8));
    }

    @Test
    void givenTwoTones_whenGoertzel_thenTheirPowers() {
        double[] x = new double[16];
        for (int n = 0; n < 16; n++) {
            x[n] = Math.sin(2 * Math.PI * 2 * n / 16) + 0.5 * Math.cos(2 * Math.PI * 5 * n / 16);
        }
        // |X(2)| = N/2 = 8 and |X(5)| = 0.5 N/2 = 4, exact by the definition of the transform.
        assertThat(Spectrum.goertzel(x, 2)).isCloseTo(64, within(1e-9));
        assertThat(Spectrum.goertzel(x, 5)).isCloseTo(16, within(1e-9));
        assertThat(Spectrum.goertzel(x, 3)).isCloseTo(0, within(1e-9));
        // numpy.fft.rfft, and the generalised transform at a line between two bins.
        assertThat(Spectrum.goertzel(V, 4)).isCloseTo(0.8940325225, within(1e-9));
        assertThat(Spectrum.goertzel(V, 2.5)).isCloseTo(45.099040380, within(1e-8));
    }

    @Test
    void givenFixedVector_whenSwitchedOnAt2AndOffAtHalf_thenEightChanges() {
        Hysteresis h = new Hysteresis(2, 0.5, false);
        List<Integer> changes = new ArrayList<>();
        for (int i = 0; i < V.length; i++) {
            if (h.add(V[i])) {
                changes.add(i);
            }
        }
        assertThat(changes).containsExactly(3, 5, 7, 9, 11, 12, 15, 16);
    }
}
