package draftwitness.furnace;

import static draftwitness.reading.Tap.CONTACT_SWITCH;
import static draftwitness.reading.Tap.DRAFT_BURNER_BOX;
import static draftwitness.reading.Tap.DRAFT_COLLECTOR;
import static draftwitness.reading.Tap.DRAFT_INDUCER;
import static draftwitness.reading.Tap.DRAFT_SWITCH;
import static draftwitness.reading.Tap.DRAFT_VENT;
import static draftwitness.reading.Tap.GAS_INLET;
import static draftwitness.reading.Tap.GAS_MANIFOLD;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import draftwitness.furnace.BurnerControl.State;
import draftwitness.input.InputException;
import draftwitness.reading.Tap;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.function.IntPredicate;
import org.junit.jupiter.api.Test;

/**
 * Each cause leaves the traces that the trade knows it by. Common practice, no source; where a relation of physics
 * stands behind it, the test says so. Cold means before light-off (30 to 45 s), hot late in the run (250 to 300 s).
 */
final class CauseSignatureTest {
    private static Trace healthy() throws InputException {
        return Trace.of(
                "healthy-calm",
                300,
                DRAFT_SWITCH,
                DRAFT_INDUCER,
                DRAFT_COLLECTOR,
                DRAFT_VENT,
                DRAFT_BURNER_BOX,
                GAS_MANIFOLD,
                GAS_INLET);
    }

    private static double cold(Trace t, Tap tap) {
        return t.mean(tap, 30, 45);
    }

    private static double hot(Trace t, Tap tap) {
        return t.mean(tap, 250, 300);
    }

    @Test
    void givenWeakInducer_thenAllDraftTapsLowInTheSameRatioAndSpinUpSlow() throws InputException {
        Trace good = healthy();
        Trace weak = Trace.of("inducer-weak-severe", 300, DRAFT_SWITCH, DRAFT_INDUCER, DRAFT_COLLECTOR);
        double ratio = cold(weak, DRAFT_INDUCER) / cold(good, DRAFT_INDUCER);
        assertThat(ratio).isBetween(0.3, 0.8);
        assertThat(cold(weak, DRAFT_COLLECTOR) / cold(good, DRAFT_COLLECTOR)).isCloseTo(ratio, within(0.03));
        assertThat(cold(weak, DRAFT_SWITCH) / cold(good, DRAFT_SWITCH)).isCloseTo(ratio, within(0.03));
        assertThat(spinUp(weak)).isGreaterThan(1.4 * spinUp(good));
        assertThat(hot(weak, DRAFT_SWITCH) / cold(weak, DRAFT_SWITCH))
                .isLessThan(hot(good, DRAFT_SWITCH) / cold(good, DRAFT_SWITCH));
    }

    /** Time to nine tenths of the cold plateau, s. */
    private static double spinUp(Trace t) {
        double level = 0.9 * cold(t, DRAFT_SWITCH);
        int start = t.first(State.SPIN_UP, 0);
        int i = start;
        while (t.of(DRAFT_SWITCH)[i] > level) {
            i++;
        }
        return (i - start) * Furnace.TICK_SECONDS;
    }

    @Test
    void givenRestrictedVent_thenLowColdAndHotAndVentAboveRoom() throws InputException {
        Trace good = healthy();
        Trace bad = Trace.of("vent-restricted-mild", 300, DRAFT_SWITCH, DRAFT_INDUCER, DRAFT_VENT);
        assertThat(cold(bad, DRAFT_INDUCER)).isGreaterThan(0.93 * cold(good, DRAFT_INDUCER));
        assertThat(hot(bad, DRAFT_INDUCER)).isGreaterThan(0.93 * hot(good, DRAFT_INDUCER));
        assertThat(cold(bad, DRAFT_VENT)).isGreaterThan(2 * cold(good, DRAFT_VENT));
    }

    /** The swing's frequency is that of the U-tube, f = sqrt(2g/L)/(2 pi), within a tenth: the gas feeds it. */
    @Test
    void givenWaterInVent_thenPeriodicSwingGrowsThroughTheRunAtTheUTubesFrequency() throws InputException {
        Trace t = Trace.of("condensate-in-vent-mild", 420, DRAFT_SWITCH);
        double column = Scenarios.find("condensate-in-vent-mild").house().flue().columnMetres();
        double expected = Math.sqrt(2 * Atmosphere.GRAVITY / column) / (2 * Math.PI);
        double early = t.deviation(DRAFT_SWITCH, 150, 180);
        double late = t.deviation(DRAFT_SWITCH, 380, 410);
        assertThat(late).isGreaterThan(4 * early);
        assertThat(t.dominantHertz(DRAFT_SWITCH, 370, 410, 0.3, 3)).isCloseTo(expected, within(0.1 * expected));
    }

    @Test
    void givenWind_thenGustsTogetherOnAllDraftTapsAndInStandbyToo() throws InputException {
        Trace good = healthy();
        Trace wind = Trace.of("wind-at-terminal-severe", 300, DRAFT_SWITCH, DRAFT_INDUCER, DRAFT_COLLECTOR);
        assertThat(wind.correlation(DRAFT_SWITCH, DRAFT_INDUCER, 200, 300)).isGreaterThan(0.95);
        assertThat(wind.correlation(DRAFT_SWITCH, DRAFT_COLLECTOR, 200, 300)).isGreaterThan(0.8);
        assertThat(wind.deviation(DRAFT_SWITCH, 200, 300)).isGreaterThan(4 * good.deviation(DRAFT_SWITCH, 200, 300));
        assertThat(wind.deviation(DRAFT_SWITCH, 0, 14)).isGreaterThan(3);
    }

    @Test
    void givenIntakeClosing_thenSuctionGrowsWhileCollectorToBurnerBoxFalls() throws InputException {
        Trace t = Trace.of("intake-restricted-severe", 8000, DRAFT_SWITCH, DRAFT_COLLECTOR, DRAFT_BURNER_BOX);
        int late = 7000 * 100;
        IntPredicate first = i -> i < 40_000 && t.state(i) == State.RUN && i > 15_000;
        IntPredicate last = i -> i > late && t.state(i) == State.RUN;
        assertThat(t.mean(DRAFT_SWITCH, last)).isLessThan(1.05 * t.mean(DRAFT_SWITCH, first));
        double before = t.mean(DRAFT_BURNER_BOX, first) - t.mean(DRAFT_COLLECTOR, first);
        double after = t.mean(DRAFT_BURNER_BOX, last) - t.mean(DRAFT_COLLECTOR, last);
        assertThat(after).isLessThan(0.75 * before);
    }

    @Test
    void givenBlockedTube_thenInducerQuickAndSwitchLate() throws InputException {
        Trace t = Trace.of("tube-blocked-mild", 300, DRAFT_SWITCH, DRAFT_INDUCER);
        double atTwo = t.mean(DRAFT_SWITCH, 17.4, 17.6) / t.mean(DRAFT_INDUCER, 17.4, 17.6);
        assertThat(atTwo).isLessThan(0.75);
        assertThat(cold(t, DRAFT_SWITCH)).isCloseTo(cold(t, DRAFT_INDUCER), within(2.0));
        Trace blocked = Trace.of("tube-blocked-severe", 60, DRAFT_SWITCH, DRAFT_INDUCER);
        assertThat(cold(blocked, DRAFT_SWITCH)).isGreaterThan(0.2 * cold(blocked, DRAFT_INDUCER));
    }

    @Test
    void givenLeakingTubeOrDiaphragm_thenSwitchSeesAConstantPartWithoutDelay() throws InputException {
        for (String name : List.of("tube-leaking-mild", "diaphragm-pinhole-mild")) {
            Trace t = Trace.of(name, 300, DRAFT_SWITCH, DRAFT_INDUCER);
            double part = cold(t, DRAFT_SWITCH) / cold(t, DRAFT_INDUCER);
            assertThat(part).as(name).isBetween(0.5, 0.92);
            assertThat(hot(t, DRAFT_SWITCH) / hot(t, DRAFT_INDUCER)).isCloseTo(part, within(0.005));
            assertThat(t.mean(DRAFT_SWITCH, 17, 17.2) / t.mean(DRAFT_INDUCER, 17, 17.2))
                    .isCloseTo(part, within(0.02));
        }
    }

    @Test
    void givenDryTrap_thenCollectorLowAndBubblingAndInducerNearNormal() throws InputException {
        Trace good = healthy();
        Trace dry = Trace.of("trap-dry-mild", 300, DRAFT_INDUCER, DRAFT_COLLECTOR);
        assertThat(hot(dry, DRAFT_COLLECTOR)).isGreaterThan(0.9 * hot(good, DRAFT_COLLECTOR));
        assertThat(hot(dry, DRAFT_INDUCER)).isCloseTo(hot(good, DRAFT_INDUCER), within(0.06 * 370));
        assertThat(dry.dominantHertz(DRAFT_COLLECTOR, 260, 290, 0.8, 12)).isBetween(1.9, 8.1);
        assertThat(dry.deviation(DRAFT_COLLECTOR, 260, 290))
                .isGreaterThan(2 * good.deviation(DRAFT_COLLECTOR, 260, 290));
    }

    @Test
    void givenBlockedDrain_thenNormalWhenColdFadesOverMinutesAndRecoversAfterARest() throws InputException {
        Trace good = healthy();
        Trace t = Trace.of("drain-blocked-mild", 1800, DRAFT_SWITCH, DRAFT_COLLECTOR);
        assertThat(cold(t, DRAFT_COLLECTOR)).isCloseTo(cold(good, DRAFT_COLLECTOR), within(8.0));
        assertThat(t.mean(DRAFT_SWITCH, 230, 240)).isGreaterThan(0.80 * t.mean(DRAFT_SWITCH, 110, 120));
        int rest = t.first(State.STANDBY, 5000);
        int again = t.first(State.IGNITER_WARM_UP, rest);
        double recovered = t.mean(DRAFT_SWITCH, again / 100.0, again / 100.0 + 10);
        assertThat(recovered).isLessThan(0.9 * cold(t, DRAFT_SWITCH));
    }

    @Test
    void givenPluggedExchanger_thenInducerStrongAndCollectorWeak() throws InputException {
        Trace good = healthy();
        Trace t = Trace.of("heat-exchanger-plugged-mild", 300, DRAFT_INDUCER, DRAFT_COLLECTOR);
        assertThat(cold(t, DRAFT_INDUCER)).isLessThan(1.03 * cold(good, DRAFT_INDUCER));
        assertThat(cold(t, DRAFT_COLLECTOR)).isGreaterThan(0.85 * cold(good, DRAFT_COLLECTOR));
    }

    @Test
    void givenLooseWire_thenContactOpensForHundredthsWhileSuctionIsFull() throws InputException {
        Trace t = Trace.of("contact-wiring-severe", 200, CONTACT_SWITCH, DRAFT_SWITCH);
        double set = Scenarios.find("contact-wiring-severe").house().rating().makePascals();
        List<Integer> lengths = openings(t, set);
        assertThat(lengths).hasSizeGreaterThan(5).allMatch(ticks -> ticks * Furnace.TICK_SECONDS <= 0.0501);
    }

    /** Lengths in ticks of the contact's openings while suction is beyond the set point. */
    private static List<Integer> openings(Trace t, double set) {
        List<Integer> out = new ArrayList<>();
        int length = 0;
        boolean wasClosed = false;
        for (int i = 0; i < t.size(); i++) {
            boolean open = t.of(CONTACT_SWITCH)[i] == 0 && -t.of(DRAFT_SWITCH)[i] > set && wasClosed;
            if (open) {
                length++;
            } else {
                if (length > 0) {
                    out.add(length);
                }
                length = 0;
                wasClosed = t.of(CONTACT_SWITCH)[i] == 1;
            }
        }
        return out;
    }

    @Test
    void givenFailingContact_thenItOpensWithFullSuction() throws InputException {
        Trace t = Trace.of("switch-faulty-severe", 600, CONTACT_SWITCH, DRAFT_SWITCH);
        double set = Scenarios.find("switch-faulty-severe").house().rating().makePascals();
        assertThat(openings(t, 1.3 * set)).anyMatch(ticks -> ticks > 20);
    }

    @Test
    void givenDriftedSwitch_thenMakesFarFromItsSetPointEveryTime() throws InputException {
        Trace t = Trace.of("switch-drifted-severe", 1200, CONTACT_SWITCH, DRAFT_SWITCH);
        House.SwitchRating rating =
                Scenarios.find("switch-drifted-severe").house().rating();
        List<Double> makes = new ArrayList<>();
        for (int i = 1; i < t.size(); i++) {
            if (t.of(CONTACT_SWITCH)[i] == 1 && t.of(CONTACT_SWITCH)[i - 1] == 0) {
                makes.add(-t.of(DRAFT_SWITCH)[i]);
            }
        }
        assertThat(makes).hasSize(2).allMatch(p -> p > rating.makePascals() + 2 * rating.tolerancePascals());
        assertThat(makes.get(0)).isCloseTo(makes.get(1), within(5.0));
    }

    @Test
    void givenManifoldOffItsSetting_thenMoreThanTenPercentOffAndDraftHealthy() throws InputException {
        Trace good = healthy();
        for (String name : List.of("manifold-high-mild", "manifold-low-mild")) {
            Trace t = Trace.of(name, 300, GAS_MANIFOLD, DRAFT_SWITCH);
            double off = hot(t, GAS_MANIFOLD) / hot(good, GAS_MANIFOLD) - 1;
            assertThat(Math.abs(off)).as(name).isGreaterThan(0.10);
            assertThat(hot(t, DRAFT_SWITCH)).isCloseTo(hot(good, DRAFT_SWITCH), within(12.0));
        }
    }

    @Test
    void givenSupplyThatSags_thenInletDropsWithTheFlameAndManifoldFollows() throws InputException {
        Trace t = Trace.of("gas-supply-sag-severe", 600, GAS_INLET, GAS_MANIFOLD);
        double standing = t.mean(GAS_INLET, 1, 10);
        double least = Arrays.stream(t.of(GAS_INLET)).min().orElseThrow();
        assertThat(least).isLessThan(0.5 * standing);
        for (int i = 100; i < t.size(); i++) {
            if (t.state(i) == State.RUN) { // the manifold follows within a second
                double inlet = Math.max(t.of(GAS_INLET)[i], t.of(GAS_INLET)[i - 100]);
                assertThat(t.of(GAS_MANIFOLD)[i]).isLessThan(inlet);
            }
        }
    }

    @Test
    void givenHuntingRegulator_thenManifoldSwingsAndInletAndDraftStandStill() throws InputException {
        Trace good = healthy();
        Trace t = Trace.of("regulator-hunting-mild", 300, GAS_MANIFOLD, DRAFT_SWITCH);
        assertThat(t.deviation(GAS_MANIFOLD, 250, 300) * 2 * Math.sqrt(2)).isGreaterThan(0.05 * hot(t, GAS_MANIFOLD));
        assertThat(t.deviation(DRAFT_SWITCH, 250, 300)).isLessThan(2 * good.deviation(DRAFT_SWITCH, 250, 300));
    }

    @Test
    void givenPoorIgnition_thenGasOpensForOneTrialAndCloses() throws InputException {
        Trace t = Trace.of("ignition-or-flame-sense-severe", 300, GAS_MANIFOLD);
        double trial = Scenarios.find("ignition-or-flame-sense-severe")
                .house()
                .sequence()
                .trialForIgnition();
        int from = t.first(State.TRIAL, 0);
        int to = t.first(State.INTER_PURGE, from);
        assertThat((to - from) * Furnace.TICK_SECONDS).isCloseTo(trial, within(0.02));
        assertThat(t.first(State.TRIAL, to)).isGreaterThan(to);
        assertThat(t.first(State.RUN, 0)).isEqualTo(-1);
    }
}
