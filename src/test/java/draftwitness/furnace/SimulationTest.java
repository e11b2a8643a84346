package draftwitness.furnace;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import draftwitness.input.InputException;
import java.util.Arrays;
import org.junit.jupiter.api.Test;

final class SimulationTest {
    /** All readings of a run as text, so that runs can be compared. */
    private static String readings(Scenario scenario, long seed, double seconds, double step) {
        Simulation run = Simulation.start(scenario, seed);
        StringBuilder out = new StringBuilder();
        long end = Math.round(seconds * 1e9);
        long stride = Math.round(step * 1e9);
        for (long t = stride; t < end; t += stride) {
            run.advanceTo(
                    t,
                    (s, n, c) -> out.append(s)
                            .append(' ')
                            .append(n)
                            .append(' ')
                            .append(c)
                            .append('\n'));
        }
        run.advanceTo(
                end,
                (s, n, c) -> out.append(s)
                        .append(' ')
                        .append(n)
                        .append(' ')
                        .append(c)
                        .append('\n'));
        return out.append(run.truthJson()).toString();
    }

    @Test
    void givenSameSeed_whenRunTwice_thenSameReadingsAndTruth() throws InputException {
        Scenario demo = Scenarios.find("demo-house");
        String once = readings(demo, 7, 200, 200);
        assertThat(once).isEqualTo(readings(demo, 7, 200, 200)).isNotEqualTo(readings(demo, 8, 200, 200));
    }

    @Test
    void givenOddSteps_whenAdvanced_thenSameReadingsAsInOneStep() throws InputException {
        Scenario demo = Scenarios.find("demo-house");
        assertThat(readings(demo, 1, 120, 0.0137)).isEqualTo(readings(demo, 1, 120, 120));
    }

    @Test
    void givenDemoHouse_whenAdvanced_thenTimesRiseStrictlyForEachSensorAndNeverFall() throws InputException {
        Simulation run = Simulation.start(Scenarios.find("demo-house"), 3);
        long[] last = new long[run.sensors().size()];
        Arrays.fill(last, -1);
        long[] latest = {0};
        run.advanceTo(60_000_000_000L, (sensor, nanos, count) -> {
            assertThat(nanos).isGreaterThan(last[sensor]).isGreaterThanOrEqualTo(latest[0]);
            last[sensor] = nanos;
            latest[0] = nanos;
        });
        assertThat(Arrays.stream(last).min().getAsLong()).isGreaterThan(59_000_000_000L);
    }

    @Test
    void givenUnknownName_whenFound_thenOneLineListsKnownOnes() {
        assertThatThrownBy(() -> Scenarios.find("no-such-house"))
                .isInstanceOf(InputException.class)
                .hasMessageContaining("no-such-house")
                .hasMessageContaining("demo-house");
    }
}
