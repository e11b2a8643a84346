package draftwitness.furnace;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import draftwitness.input.InputException;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

final class TruthTest {
    private static List<Cycle> cycles(String name) throws InputException {
        Scenario scenario = Scenarios.find(name);
        Simulation run = Simulation.start(scenario, 1);
        run.advanceTo(Math.round(scenario.durationSeconds() * 1e9), (s, n, c) -> {});
        return run.truthCycles();
    }

    // Outcome of the first cycle with seed 1, and why a lockout came.
    @ParameterizedTest
    @CsvSource(textBlock = """
            healthy-calm,                    heated,
            healthy-breezy,                  heated,
            healthy-thin-margin,             heated,
            healthy-two-stage,               heated,
            healthy-propane,                 heated,
            tube-blocked-severe,             lockout, failed-to-prove
            heat-exchanger-plugged-severe,   lockout, failed-to-prove
            ignition-or-flame-sense-severe,  lockout, failed-to-light
            condensate-in-vent-severe,       lockout, draft-lost
            switch-faulty-severe,            lockout, draft-lost
            gas-supply-sag-severe,           lockout, flame-lost
            """)
    void givenScenario_whenRun_thenFirstCycleEndsAsItsCauseMakesIt(String name, String outcome, String reason)
            throws InputException {
        Cycle first = cycles(name).get(0);
        assertThat(first.outcome()).isEqualTo(outcome);
        assertThat(first.reason()).isEqualTo(reason);
    }

    @Test
    void givenHealthyCycle_thenPhasesFollowEachOtherWithoutAGap() throws InputException {
        Cycle first = cycles("healthy-calm").get(0);
        assertThat(first.phases())
                .extracting(Cycle.Phase::name)
                .containsExactly("spin-up", "pre-purge", "igniter-warm-up", "trial-for-ignition", "run", "post-purge");
        assertThat(first.phases().get(0).startSeconds()).isEqualTo(first.startSeconds());
        for (int i = 1; i < first.phases().size(); i++) {
            assertThat(first.phases().get(i).startSeconds())
                    .isEqualTo(first.phases().get(i - 1).endSeconds());
        }
        double inducerStop = first.phases().get(5).endSeconds();
        assertThat(first.endSeconds()).isGreaterThan(inducerStop).isLessThan(inducerStop + 20);
        assertThat(first.flutter()).isEmpty();
        assertThat(first.sags()).isEmpty();
        assertThat(first.attempts()).isEqualTo(1);
    }

    @Test
    void givenDemoHouse_thenFirstCycleHealthyAndFlutterLaterAndARestart() throws InputException {
        List<Cycle> cycles = cycles("demo-house");
        assertThat(cycles.get(0).outcome()).isEqualTo("heated");
        assertThat(cycles.get(0).flutter()).isEmpty();
        Cycle second = cycles.get(1);
        assertThat(second.attempts()).isGreaterThan(1);
        assertThat(second.flutter()).isNotEmpty();
        assertThat(second.flutter().get(0).startSeconds()).isBetween(200.0, 480.0);
        assertThat(second.phases()).extracting(Cycle.Phase::name).contains("recycle");
    }

    @Test
    void givenContactThatWelds_whenCalled_thenTruthTellsWhenACallWaited() throws InputException {
        Scenario scenario = Scenarios.find("switch-faulty-severe");
        boolean found = false;
        for (int seed = 1; seed < 20 && !found; seed++) {
            Simulation run = Simulation.start(scenario, seed);
            run.advanceTo(3_000_000_000_000L, (s, n, c) -> {});
            found = !run.truthJson().contains("\"closed_in_standby\": []");
        }
        assertThat(found).isTrue();
    }

    @Test
    void givenLockout_thenTruthHasItOutsideTheCycle() throws InputException {
        Simulation run = Simulation.start(Scenarios.find("tube-blocked-severe"), 1);
        run.advanceTo(1_200_000_000_000L, (s, n, c) -> {});
        Cycle only = run.truthCycles().get(0);
        assertThat(run.truthJson()).containsPattern("\"lockouts\": \\[\\{\"start_s\": \\d");
        assertThat(only.phases()).extracting(Cycle.Phase::name).doesNotContain("lockout");
    }

    @Test
    void givenRunCutInTheMiddle_thenLastCycleIncomplete() throws InputException {
        Simulation run = Simulation.start(Scenarios.find("healthy-calm"), 1);
        run.advanceTo(100_000_000_000L, (s, n, c) -> {});
        assertThat(run.truthCycles()).hasSize(1);
        assertThat(run.truthCycles().get(0).outcome()).isEqualTo("incomplete");
        assertThat(run.truthCycles().get(0).endSeconds()).isEqualTo(100);
        run.advanceTo(450_000_000_000L, (s, n, c) -> {});
        assertThat(run.truthCycles().get(0).outcome()).isEqualTo("heated");
    }

    @Test
    void givenThreeTransitionsInTenSeconds_thenFlutter_andSpansCloserThanTenSecondsAreOne() {
        assertThat(Flutter.spans(List.of(1.0, 2.0))).isEmpty();
        assertThat(Flutter.spans(List.of(1.0, 8.0, 15.0))).isEmpty(); // never three within 10 s
        assertThat(Flutter.spans(List.of(1.0, 2.0, 3.0, 12.0, 13.0, 14.0))).containsExactly(new Cycle.Span(1, 14, 6));
        assertThat(Flutter.spans(List.of(1.0, 2.0, 3.0, 12.5))).containsExactly(new Cycle.Span(1, 3, 3));
        assertThat(Flutter.spans(List.of(1.0, 2.0, 3.0, 40.0, 41.0, 42.0))).hasSize(2);
    }

    @Test
    void givenSteadySuction_whenItDropsTenPercentForHalfASecond_thenOneSagOfThatDepth() {
        SagFinder finder = new SagFinder();
        double depth = feed(finder, 0.5, 40);
        assertThat(finder.found()).hasSize(1);
        Cycle.Sag sag = finder.found().get(0);
        assertThat(sag.startSeconds()).isCloseTo(20, within(0.06));
        assertThat(sag.endSeconds() - sag.startSeconds()).isCloseTo(0.5, within(0.11));
        assertThat(sag.depthPascals()).isCloseTo(depth, within(2.0));
    }

    @Test
    void givenSteadySuction_whenDropIsShortOrShallow_thenNoSag() {
        SagFinder brief = new SagFinder();
        feed(brief, 0.15, 40);
        assertThat(brief.found()).isEmpty();
        SagFinder shallow = new SagFinder();
        feed(shallow, 2, 20); // 20 of 300 Pa is under 8 %
        assertThat(shallow.found()).isEmpty();
    }

    private static double feed(SagFinder finder, double seconds, double depth) {
        Noise noise = Noise.of(1, "sag test");
        for (int i = 0; i < 4000; i++) {
            double t = i * Furnace.TICK_SECONDS;
            boolean low = t >= 20 && t < 20 + seconds;
            finder.tick(t, 300 - (low ? depth : 0) + 0.5 * noise.gaussian());
        }
        finder.newPhase(40);
        return depth;
    }

    @Test
    void givenRun_whenTruthWritten_thenJsonHasTheAgreedKeys() throws InputException {
        Simulation run = Simulation.start(Scenarios.find("demo-house"), 1);
        run.advanceTo(400_000_000_000L, (s, n, c) -> {});
        String json = run.truthJson();
        assertThat(json)
                .contains("\"scenario\": \"demo-house\"", "\"seed\": 1", "\"cause\": \"condensate-in-vent\"")
                .contains("\"cycles\": [", "\"outcome\": \"heated\"", "\"phase\": \"spin-up\"", "\"flutter\": [{")
                .contains("\"sags\": [");
        assertThat(json.chars().filter(c -> c == '{').count())
                .isEqualTo(json.chars().filter(c -> c == '}').count());
    }
}
