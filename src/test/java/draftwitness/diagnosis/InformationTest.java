package draftwitness.diagnosis;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.Arrays;
import org.junit.jupiter.api.Test;

/** The arithmetic of the diagnosis against published examples. */
class InformationTest {
    private static final double PRINTED = 1e-6;

    private static double[] column(double[][] given, int k) {
        return Arrays.stream(given).mapToDouble(row -> row[k]).toArray();
    }

    /** MacKay, Information Theory, Inference, and Learning Algorithms (2003), exercise 2.3: 0.16. */
    @Test
    void givenJosTest_whenPositive_thenSixteenPercent() {
        double[] prior = {0.01, 0.99};
        double[][] given = {{0.95, 0.05}, {0.05, 0.95}};
        assertThat(Information.posterior(prior, column(given, 0))[0]).isCloseTo(0.16, within(0.005));
        assertThat(Information.posterior(prior, column(given, 0))[0]).isCloseTo(0.0095 / 0.059, within(1e-12));
        // Derived from the same numbers: entropy before, and the information to be expected of the test.
        assertThat(Information.entropyBits(prior)).isCloseTo(0.080793, within(PRINTED));
        assertThat(Information.gainBits(prior, given)).isCloseTo(0.037065, within(PRINTED));
    }

    /** Russell and Norvig, Artificial Intelligence: A Modern Approach, burglary network: both call, <0.284, 0.716>. */
    @Test
    void givenTheBurglaryNetwork_whenBothCall_thenTheBooksPosterior() {
        double[] causes = {0.001 * 0.002, 0.001 * 0.998, 0.999 * 0.002, 0.999 * 0.998}; // BE, B, E, neither
        double[] alarm = {0.95, 0.94, 0.29, 0.001};
        double[] both = Arrays.stream(alarm)
                .map(a -> a * 0.90 * 0.70 + (1 - a) * 0.05 * 0.01)
                .toArray();
        double[] john = Arrays.stream(alarm).map(a -> a * 0.90 + (1 - a) * 0.05).toArray();
        double[] p = Information.posterior(causes, both);
        assertThat(p[0] + p[1]).isCloseTo(0.284, within(0.0005));
        assertThat(p[0] + p[1]).isCloseTo(0.284171835, within(1e-6));
        double[] q = Information.posterior(causes, john);
        assertThat(q[0] + q[1]).isCloseTo(0.016284, within(PRINTED)); // computed from the same network
    }

    /** Russell and Norvig, meningitis and stiff neck: 0.7 / 50 000 / 0.01 = 0.0014. */
    @Test
    void givenAStiffNeck_thenMeningitisIsStillUnlikely() {
        double rest = (0.01 - 0.7 / 50_000) / (1 - 1.0 / 50_000);
        double[] p = Information.posterior(new double[] {1.0 / 50_000, 1 - 1.0 / 50_000}, new double[] {0.7, rest});
        assertThat(p[0]).isCloseTo(0.0014, within(1e-12));
    }

    /**
     * Cover and Thomas, Elements of Information Theory, example 2.2.1 (also MacKay, exercise 8.6): H(X) = 7/4, H(Y) =
     * 2, H(X|Y) = 11/8, I(X;Y) = 3/8 bit.
     */
    @Test
    void givenTheJointTable_thenGainIsThreeEighthsOfABit() {
        double[][] joint = {
            {1 / 8.0, 1 / 16.0, 1 / 32.0, 1 / 32.0},
            {1 / 16.0, 1 / 8.0, 1 / 32.0, 1 / 32.0},
            {1 / 16.0, 1 / 16.0, 1 / 16.0, 1 / 16.0},
            {1 / 4.0, 0, 0, 0}
        };
        double[] y = new double[4];
        double[][] xGivenY = new double[4][4];
        for (int i = 0; i < 4; i++) {
            y[i] = Arrays.stream(joint[i]).sum();
            for (int k = 0; k < 4; k++) {
                xGivenY[i][k] = joint[i][k] / y[i];
            }
        }
        double[] x = Information.outcomes(y, xGivenY);
        assertThat(Information.entropyBits(y)).isCloseTo(2, within(1e-12));
        assertThat(Information.entropyBits(x)).isCloseTo(7 / 4.0, within(1e-12));
        assertThat(Information.gainBits(y, xGivenY)).isCloseTo(3 / 8.0, within(1e-12));
        // The other way round it is the same: what the outcome tells of the cause is what the cause tells of the
        // outcome.
        double[][] yGivenX = new double[4][4];
        for (int k = 0; k < 4; k++) {
            for (int i = 0; i < 4; i++) {
                yGivenX[k][i] = joint[i][k] / x[k];
            }
        }
        double gain = Information.gainBits(x, yGivenX);
        assertThat(gain).isCloseTo(3 / 8.0, within(1e-12));
        assertThat(Information.entropyBits(x) - gain).isCloseTo(11 / 8.0, within(1e-12));
    }

    /** Mitchell, Machine Learning (1997), chapter 3, the PlayTennis days; its 0.246 and 0.151 are cut, not rounded. */
    @Test
    void givenTheTennisDays_thenGainsRankOutlookFirst() {
        double[] play = {9 / 14.0, 5 / 14.0};
        assertThat(Information.entropyBits(play)).isCloseTo(0.940286, within(PRINTED));
        double[][] outlook = {{2 / 9.0, 4 / 9.0, 3 / 9.0}, {3 / 5.0, 0, 2 / 5.0}};
        double[][] humidity = {{3 / 9.0, 6 / 9.0}, {4 / 5.0, 1 / 5.0}};
        double[][] wind = {{6 / 9.0, 3 / 9.0}, {2 / 5.0, 3 / 5.0}};
        double[][] temperature = {{2 / 9.0, 4 / 9.0, 3 / 9.0}, {2 / 5.0, 2 / 5.0, 1 / 5.0}};
        assertThat(Information.gainBits(play, outlook)).isCloseTo(0.246750, within(PRINTED));
        assertThat(Information.gainBits(play, humidity)).isCloseTo(0.151836, within(PRINTED));
        assertThat(Information.gainBits(play, wind)).isCloseTo(0.048127, within(PRINTED));
        assertThat(Information.gainBits(play, temperature)).isCloseTo(0.029223, within(PRINTED));
    }

    /** Cover and Thomas, section 1.1 (the horse race: 2 bits); coins and a die by definition. */
    @Test
    void givenCoinsDiceAndHorses_thenEntropiesInBits() {
        assertThat(Information.entropyBits(new double[] {0.5, 0.5})).isCloseTo(1, within(1e-12));
        assertThat(Information.entropyBits(new double[] {0.9, 0.1})).isCloseTo(0.468996, within(PRINTED));
        assertThat(Information.entropyBits(new double[] {0.11, 0.89})).isCloseTo(0.499916, within(PRINTED));
        double[] die = new double[6];
        Arrays.fill(die, 1 / 6.0);
        assertThat(Information.entropyBits(die)).isCloseTo(2.584963, within(PRINTED));
        double[] horses = {1 / 2.0, 1 / 4.0, 1 / 8.0, 1 / 16.0, 1 / 64.0, 1 / 64.0, 1 / 64.0, 1 / 64.0};
        assertThat(Information.entropyBits(horses)).isCloseTo(2, within(1e-12));
    }

    @Test
    void givenLogarithmsFarBelowZero_thenNothingUnderflows() {
        double[] p = Information.normalised(new double[] {-5000, -5000 + Math.log(3)});
        assertThat(p[0]).isCloseTo(0.25, within(1e-9));
    }

    @Test
    void givenWhatIsImpossibleUnderEveryCause_thenItIsRefused() {
        assertThatThrownBy(() -> Information.posterior(new double[] {0.5, 0.5}, new double[] {0, 0}))
                .hasMessageContaining("impossible");
    }
}
