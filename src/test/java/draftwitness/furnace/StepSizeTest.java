package draftwitness.furnace;

import static org.assertj.core.api.Assertions.assertThat;

import draftwitness.input.InputException;
import draftwitness.reading.Tap;
import org.assertj.core.data.Percentage;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** Halving the step of the physics changes results by less than 0.1 %. */
final class StepSizeTest {
    /** Mean suction, its root mean square, the largest, heat released, and when the switch first makes. */
    private static double[] results(House house, int substeps, double seconds) {
        Furnace f = new Furnace(house, 5, substeps);
        double sum = 0;
        double squares = 0;
        double most = 0;
        double heat = 0;
        double made = 0;
        while (f.now() < seconds) {
            f.tick();
            double s = f.suction();
            sum += s;
            squares += s * s;
            most = Math.max(most, s);
            heat += f.network().gasFlow;
            made = made == 0 && f.at(Tap.CONTACT_SWITCH) == 1 ? f.now() : made;
        }
        return new double[] {sum, Math.sqrt(squares), most, heat, made, f.inducerSpeed()};
    }

    @ParameterizedTest
    @ValueSource(strings = {"healthy-calm", "demo-house", "wind-at-terminal-severe", "trap-dry-mild"})
    void givenHalfTheStep_whenRun_thenResultsWithinATenthOfAPercent(String name) throws InputException {
        House house = Scenarios.find(name).house();
        double[] coarse = results(house, 1, 270);
        double[] fine = results(house, 2, 270);
        for (int i = 0; i < coarse.length; i++) {
            assertThat(fine[i]).as("result " + i).isCloseTo(coarse[i], Percentage.withPercentage(0.1));
        }
    }
}
