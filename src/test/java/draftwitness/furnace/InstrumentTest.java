package draftwitness.furnace;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import draftwitness.input.InputException;
import draftwitness.reading.Step;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;

/** What the simulated instruments do to the truth: noise, steps, times, zero, gaps, the wrong hose. */
final class InstrumentTest {
    private record Reading(double seconds, double value, long count) {}

    /** Readings of the one sensor of a furnace that stands still in calm air, unless told otherwise. */
    private static List<Reading> read(String sensorKeys, String otherTables, double seconds) throws InputException {
        String text =
                "[house]\nwind-m-s = 0\npipes = 1\noutdoor-c = 20\n[[sensor]]\n" + sensorKeys + "\n" + otherTables;
        Simulation run =
                Simulation.start(ScenarioReader.read("x", "x.toml", text).get(0), 1);
        SimulatedSensor sensor = run.sensors().get(0);
        Step step = new Step(sensor.unit(), sensor.decimals());
        List<Reading> out = new ArrayList<>();
        run.advanceTo(
                Math.round(seconds * 1e9),
                (s, nanos, count) -> out.add(new Reading(nanos / 1e9, step.inBase(count), count)));
        return out;
    }

    private static final String NO_CALL = "[calls]\nfirst = 86400\n";

    private static double mean(List<Reading> readings) {
        return readings.stream().mapToDouble(Reading::value).average().orElseThrow();
    }

    private static double deviation(List<Reading> readings) {
        double mean = mean(readings);
        return Math.sqrt(readings.stream()
                .mapToDouble(r -> (r.value() - mean) * (r.value() - mean))
                .average()
                .orElseThrow());
    }

    @Test
    void givenNoise_thenReadingsSpreadByIt() throws InputException {
        List<Reading> r = read("tap = \"draft.switch\"\nnoise = 2.0\ndecimals = 2", NO_CALL, 400);
        assertThat(mean(r)).isCloseTo(0, within(0.1));
        assertThat(deviation(r)).isCloseTo(2.0, within(0.05));
    }

    @Test
    void givenRate_thenSoManyReadings_andJitterMovesTheirTimes() throws InputException {
        List<Reading> r = read("tap = \"draft.switch\"\nrate = 20\njitter-ms = 4", NO_CALL, 500);
        assertThat(r.size()).isBetween(9999, 10_001);
        double sum = 0;
        for (int i = 0; i < r.size(); i++) {
            double late = r.get(i).seconds() - i / 20.0;
            sum += late * late;
        }
        assertThat(Math.sqrt(sum / r.size())).isCloseTo(0.004, within(0.0004));
    }

    @Test
    void givenZeroAndDrift_thenReadingsMoveWithTime() throws InputException {
        List<Reading> r = read("tap = \"draft.switch\"\nzero = 5\nzero-drift-per-hour = 36\nrate = 10", NO_CALL, 1000);
        assertThat(mean(r.subList(0, 500))).isCloseTo(5.25, within(0.15));
        assertThat(mean(r.subList(9500, 10_000))).isCloseTo(14.75, within(0.15));
    }

    @Test
    void givenInchesWithTwoDecimals_thenCountsAreHundredthsOfAnInch() throws InputException {
        List<Reading> r = read("tap = \"draft.switch\"\nunit = \"inH2O\"\ndecimals = 2\nnoise = 0", "", 30);
        Reading last = r.get(r.size() - 1);
        assertThat(last.value()).isCloseTo(last.count() * 2.4908891, within(1e-9));
        assertThat(last.value()).isBetween(-450.0, -350.0);
    }

    @Test
    void givenDropOuts_thenGapsOfAboutThatNumberAndLength() throws InputException {
        List<Reading> r = read(
                "tap = \"draft.switch\"\nrate = 10\ndrop-outs-per-hour = 60\ndrop-out-seconds = 5", NO_CALL, 36_000);
        int gaps = 0;
        double lost = 0;
        for (int i = 1; i < r.size(); i++) {
            double pause = r.get(i).seconds() - r.get(i - 1).seconds();
            if (pause > 0.25) {
                gaps++;
                lost += pause;
            }
        }
        assertThat(gaps).isBetween(450, 640); // 600 expected less those that fall short of two periods
        assertThat(lost / gaps).isBetween(4.0, 6.0);
    }

    @Test
    void givenHoseOnAnotherTap_thenReadsThatOne() throws InputException {
        String keys = "tap = \"draft.switch\"\nconnected-to = \"draft.vent\"\nnoise = 0";
        List<Reading> r = read(keys, "", 30);
        assertThat(r.get(r.size() - 1).value()).isGreaterThan(5);
    }

    @Test
    void givenInstrumentWithItsOwnFilter_thenSeesASpinUpLate() throws InputException {
        List<Reading> quick = read("tap = \"draft.switch\"\nnoise = 0\njitter-ms = 0", "", 30);
        List<Reading> slow = read("tap = \"draft.switch\"\nnoise = 0\njitter-ms = 0\nlag = 2", "", 30);
        int i = 17 * 50;
        assertThat(slow.get(i).value()).isGreaterThan(quick.get(i).value() / 2);
    }

    @Test
    void givenContactReadFast_whenItMakes_thenBouncesForMillisecondsOnly() throws InputException {
        int bounces = 0;
        for (int seed = 0; seed < 8; seed++) {
            String text = "[[sensor]]\ntap = \"contact.switch\"\nrate = 400\njitter-ms = " + (0.1 + 0.1 * seed) + "\n";
            Simulation run =
                    Simulation.start(ScenarioReader.read("x", "x.toml", text).get(0), seed);
            List<Reading> r = new ArrayList<>();
            run.advanceTo(30_000_000_000L, (s, nanos, c) -> r.add(new Reading(nanos / 1e9, c, c)));
            double first = Double.NaN;
            for (int i = 1; i < r.size(); i++) {
                if (r.get(i).count() != r.get(i - 1).count()) {
                    first = Double.isNaN(first) ? r.get(i).seconds() : first;
                    bounces++;
                    assertThat(r.get(i).seconds() - first).isLessThan(0.012);
                }
            }
        }
        assertThat(bounces).isGreaterThan(8); // more changes than the eight makes
    }
}
