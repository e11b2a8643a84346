package draftwitness.signal;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.Arrays;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** Streaming levels against the plain definition on the whole window. */
class RobustLevelsTest {

    @ParameterizedTest
    @ValueSource(ints = {1, 2, 5, 200})
    void givenAnyValues_whenTheLevelRolls_thenMedianAndDeviationAreThoseOfTheWindow(int width) {
        Random random = new Random(width);
        LevelWindow rolling = new LevelWindow(width);
        double[] all = new double[1000];
        for (int i = 0; i < all.length; i++) {
            all[i] = Math.round(random.nextGaussian() * 30) / 10.0;
            rolling.add(all[i]);
            double[] window = Arrays.copyOfRange(all, Math.max(0, i - width + 1), i + 1);
            assertThat(rolling.median()).isCloseTo(Robust.median(window), within(1e-12));
            assertThat(rolling.sigma()).isCloseTo(Robust.SIGMA_OF_MAD * Robust.mad(window), within(1e-9));
            assertThat(rolling.smallest()).isEqualTo(Arrays.stream(window).min().orElseThrow());
        }
    }

    @Test
    void givenSwingInNoise_whenItsRhythmIsSought_thenFrequencyAndHighShare() {
        double[] x = new double[600];
        Random random = new Random(4);
        for (int i = 0; i < x.length; i++) {
            x[i] = 0.2 * i + 40 * Math.sin(2 * Math.PI * 1.21 * i / 50) + 3 * random.nextGaussian();
        }
        Periodicity p = Periodicity.of(x, 50);
        assertThat(p.hertz()).isCloseTo(1.21, within(0.03));
        assertThat(p.share()).isGreaterThan(0.85);
        assertThat(p.repeats()).isGreaterThan(0.8);
    }

    @Test
    void givenNoiseOnly_whenItsRhythmIsSought_thenLowShare() {
        double[] x = new Random(5).doubles(600).toArray();
        assertThat(Periodicity.of(x, 50).share()).isLessThan(0.2);
        assertThat(Periodicity.of(new double[10], 50).hertz()).isZero();
    }
}
