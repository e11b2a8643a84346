package draftwitness.furnace;

import static org.assertj.core.api.Assertions.assertThat;

import draftwitness.furnace.BurnerControl.State;
import draftwitness.input.InputException;
import draftwitness.reading.Tap;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;

/**
 * Levels, times and shapes of a healthy cycle as the trade knows them. Common practice and typical figures from memory,
 * no source: the bounds are wide.
 */
final class HealthyCycleTest {
    private record Moment(double t, State state, double suction, double collector, double flame) {}

    private static List<Moment> run(String name, double seconds) throws InputException {
        Furnace f = new Furnace(Scenarios.find(name).house(), 11, 1);
        List<Moment> out = new ArrayList<>();
        while (f.now() < seconds) {
            f.tick();
            out.add(new Moment(
                    f.now(), f.control().state(), f.suction(), -f.at(Tap.DRAFT_COLLECTOR), f.at(Tap.FLAME_CURRENT)));
        }
        return out;
    }

    private static double mean(List<Moment> run, double from, double to) {
        return run.stream()
                .filter(m -> m.t() >= from && m.t() < to)
                .mapToDouble(Moment::suction)
                .average()
                .orElseThrow();
    }

    private static double first(List<Moment> run, State state) {
        return run.stream()
                .filter(m -> m.state() == state)
                .mapToDouble(Moment::t)
                .findFirst()
                .orElseThrow();
    }

    private static double lightOff(List<Moment> run) {
        return run.stream()
                .filter(m -> m.flame() > 0.1)
                .mapToDouble(Moment::t)
                .findFirst()
                .orElseThrow();
    }

    @Test
    void givenColdStart_whenInducerStarts_thenPlateauInTwoToFiveSeconds() throws InputException {
        List<Moment> run = run("healthy-calm", 45);
        double start = first(run, State.SPIN_UP);
        double cold = mean(run, start + 10, start + 20);
        double reached = run.stream()
                .filter(m -> m.suction() >= 0.95 * cold)
                .mapToDouble(Moment::t)
                .findFirst()
                .orElseThrow();
        assertThat(cold).isBetween(100.0, 500.0);
        assertThat(reached - start).isBetween(1.5, 5.0);
    }

    @Test
    void givenLightOff_thenDipOfFiveToTwentyPercentForUnderASecond() throws InputException {
        List<Moment> run = run("healthy-calm", 80);
        double lit = lightOff(run);
        double cold = mean(run, lit - 6, lit - 1);
        double least = run.stream()
                .filter(m -> m.t() > lit - 0.5 && m.t() < lit + 3)
                .mapToDouble(Moment::suction)
                .min()
                .orElseThrow();
        double after = mean(run, lit + 1.5, lit + 2.5);
        double half = (after + least) / 2;
        long below = run.stream()
                .filter(m -> m.t() > lit - 0.5 && m.t() < lit + 3 && m.suction() < half)
                .count();
        assertThat(1 - least / cold).isBetween(0.05, 0.20);
        assertThat(below * Furnace.TICK_SECONDS).isBetween(0.05, 1.0);
    }

    @Test
    void givenWarmUp_thenHotPlateauFiveToTwentyPercentWeakerWithinNinetySeconds() throws InputException {
        List<Moment> run = run("healthy-calm", 345);
        double lit = lightOff(run);
        double cold = mean(run, lit - 6, lit - 1);
        double hot = mean(run, lit + 200, lit + 260);
        double atNinety = mean(run, lit + 85, lit + 95);
        double atTen = mean(run, lit + 8, lit + 12);
        assertThat(1 - hot / cold).isBetween(0.05, 0.20);
        assertThat(cold - atNinety).isGreaterThan(0.85 * (cold - hot));
        assertThat(cold - atTen).isLessThan(0.6 * (cold - hot));
    }

    @Test
    void givenBlowerStart_whenExchangerIsSound_thenNoStep_andWhenBreached_thenAStep() throws InputException {
        assertThat(Math.abs(blowerStep("healthy-calm"))).isLessThan(0.01);
        assertThat(blowerStep("heat-exchanger-breached-mild")).isGreaterThan(0.04);
    }

    /** Share of suction lost within 4 s around the blower's start. */
    private static double blowerStep(String name) throws InputException {
        List<Moment> run = run(name, 120);
        double blower = first(run, State.RUN) + 30;
        double before = mean(run, blower - 2, blower);
        double after = mean(run, blower + 4, blower + 6);
        return 1 - after / before;
    }

    @Test
    void givenEndOfCall_thenSuctionReturnsTowardsColdPlateauAndDecaysToZero() throws InputException {
        List<Moment> run = run("healthy-calm", 500);
        double off = first(run, State.POST_PURGE);
        double stop = run.stream()
                .filter(m -> m.t() > off && m.state() == State.STANDBY)
                .mapToDouble(Moment::t)
                .findFirst()
                .orElseThrow();
        double hot = mean(run, off - 10, off);
        assertThat(mean(run, stop - 3, stop)).isGreaterThan(hot * 1.01);
        assertThat(Math.abs(mean(run, stop + 30, stop + 60))).isLessThan(5);
    }
}
