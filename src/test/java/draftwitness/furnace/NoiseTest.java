package draftwitness.furnace;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.SplittableRandom;
import org.junit.jupiter.api.Test;

final class NoiseTest {
    /** SplitMix64 with seed 1234567: the first five outputs as commonly published (unsigned; from memory). */
    @Test
    void givenPublishedSeed_thenPublishedNumbers() {
        SplittableRandom random = new SplittableRandom(1234567);
        for (String expected : new String[] {
            "6457827717110365317",
            "3203168211198807973",
            "9817491932198370423",
            "4593380528125082431",
            "16408922859458223821"
        }) {
            assertThat(Long.toUnsignedString(random.nextLong())).isEqualTo(expected);
        }
    }

    /** Moments of the normal distribution: 0, 1, 0, 3; and 4.550 % beyond two sigma, any table. */
    @Test
    void givenManyNormalNumbers_thenMomentsAndTails() {
        Noise noise = Noise.of(3, "moments");
        int n = 400_000;
        double[] sums = new double[4];
        int tail = 0;
        for (int i = 0; i < n; i++) {
            double g = noise.gaussian();
            sums[0] += g;
            sums[1] += g * g;
            sums[2] += g * g * g;
            sums[3] += g * g * g * g;
            tail += Math.abs(g) > 2 ? 1 : 0;
        }
        assertThat(sums[0] / n).isCloseTo(0, within(0.006));
        assertThat(sums[1] / n).isCloseTo(1, within(0.01));
        assertThat(sums[2] / n).isCloseTo(0, within(0.02));
        assertThat(sums[3] / n).isCloseTo(3, within(0.06));
        assertThat((double) tail / n).isCloseTo(0.0455, within(0.0015));
    }

    @Test
    void givenOtherSeedOrName_thenUnrelatedStream() {
        double sum = 0;
        Noise a = Noise.of(1, "wind");
        Noise b = Noise.of(2, "wind");
        Noise c = Noise.of(1, "weather");
        double other = 0;
        int n = 100_000;
        for (int i = 0; i < n; i++) {
            double x = a.gaussian();
            sum += x * b.gaussian();
            other += x * c.gaussian();
        }
        assertThat(sum / n).isCloseTo(0, within(0.015));
        assertThat(other / n).isCloseTo(0, within(0.015));
    }
}
