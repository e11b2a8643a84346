package draftwitness.furnace;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import draftwitness.furnace.BurnerControl.Failure;
import draftwitness.furnace.BurnerControl.State;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;

/** The control alone; the test plays contact and flame, which answer at once to inducer and gas valve. */
final class BurnerControlTest {
    private static final double FLAME = 3;

    private final House.Sequence times =
            new House.Sequence(15, 17, 5, 60, 3, 15, 20, 30, 3600, 0.25, 0.8, 30, 100, 240);
    private final BurnerControl control = new BurnerControl(times);
    private final List<String> phases = new ArrayList<>();
    private double now;

    private void run(double seconds, boolean call, boolean proves, double flame) {
        double end = now + seconds;
        while (now < end - 1e-9) {
            step(call, proves && control.inducer(), control.gasValve() ? flame : 0);
        }
    }

    private void step(boolean call, boolean contact, double flame) {
        now += Furnace.TICK_SECONDS;
        control.step(now, call, contact, flame);
        String phase = control.state().phase;
        if (phases.isEmpty() || !phases.get(phases.size() - 1).equals(phase)) {
            phases.add(phase);
        }
    }

    /** Runs until a state is entered and gives the time that took, s. */
    private double until(State state, boolean call, boolean proves, double flame) {
        double from = now;
        while (control.state() != state) {
            run(Furnace.TICK_SECONDS, call, proves, flame);
            assertThat(now - from).as("time to " + state).isLessThan(10_000);
        }
        return now - from;
    }

    @Test
    void givenCall_whenAllIsWell_thenEveryPhaseInOrderForItsTime() {
        until(State.PRE_PURGE, true, true, FLAME);
        assertThat(until(State.IGNITER_WARM_UP, true, true, FLAME)).isCloseTo(15, within(0.02));
        assertThat(until(State.TRIAL, true, true, FLAME)).isCloseTo(17, within(0.02));
        assertThat(until(State.RUN, true, true, FLAME)).isBetween(0.25, 1.0);
        run(60, true, true, FLAME);
        assertThat(control.blower(now)).isTrue();
        until(State.POST_PURGE, false, true, FLAME);
        assertThat(control.gasValve()).isFalse();
        assertThat(until(State.STANDBY, false, true, FLAME)).isCloseTo(15, within(0.02));
        assertThat(control.inducer()).isFalse();
        run(84, false, true, FLAME);
        assertThat(control.blower(now)).isTrue();
        run(2, false, true, FLAME);
        assertThat(control.blower(now)).isFalse();
        assertThat(phases)
                .containsExactly(
                        "spin-up",
                        "pre-purge",
                        "igniter-warm-up",
                        "trial-for-ignition",
                        "run",
                        "post-purge",
                        "standby");
    }

    @Test
    void givenContactClosedInStandby_whenCalled_thenNeverStarts() {
        for (int i = 0; i < 100; i++) {
            step(false, true, 0);
        }
        for (int i = 0; i < 10_000; i++) {
            step(true, true, 0);
            assertThat(control.inducer()).isFalse();
        }
        assertThat(control.closedInStandby()).isTrue();
    }

    @Test
    void givenSwitchThatNeverMakes_thenThreeAttemptsThenLockoutThenANewStart() {
        double toLockout = until(State.LOCKOUT, true, false, FLAME);
        assertThat(toLockout).isCloseTo(3 * 60 + 2 * 30, within(0.1));
        assertThat(control.attempts()).isEqualTo(3);
        assertThat(control.lastFailure()).isEqualTo(Failure.FAILED_TO_PROVE);
        run(3590, true, false, FLAME);
        assertThat(control.state()).isEqualTo(State.LOCKOUT);
        assertThat(control.inducer()).isFalse();
        run(20, true, false, FLAME);
        assertThat(control.state()).isEqualTo(State.SPIN_UP);
    }

    @Test
    void givenLockout_whenCallEnds_thenReset() {
        until(State.LOCKOUT, true, false, FLAME);
        run(1, false, false, FLAME);
        assertThat(control.state()).isEqualTo(State.STANDBY);
        run(1, true, false, FLAME);
        assertThat(control.state()).isEqualTo(State.SPIN_UP);
        assertThat(control.attempts()).isEqualTo(1);
    }

    @Test
    void givenNoFlame_thenGasForOneTrialOnlyAndInterPurgeBeforeTheNext() {
        until(State.TRIAL, true, true, 0);
        assertThat(until(State.INTER_PURGE, true, true, 0)).isCloseTo(5, within(0.02));
        assertThat(control.gasValve()).isFalse();
        assertThat(control.inducer()).isTrue();
        assertThat(until(State.IGNITER_WARM_UP, true, true, 0)).isCloseTo(20, within(0.02));
        until(State.LOCKOUT, true, true, 0);
        assertThat(control.attempts()).isEqualTo(3);
        assertThat(control.lastFailure()).isEqualTo(Failure.FAILED_TO_LIGHT);
    }

    @Test
    void givenRun_whenContactOpensLongerThanTheFilter_thenGasShutsAndTheSequenceRestarts() {
        until(State.RUN, true, true, FLAME);
        run(10, true, true, FLAME);
        run(0.20, true, false, FLAME);
        run(1, true, true, FLAME);
        assertThat(control.gasValve()).isTrue(); // 0.2 s is within the filter of 0.25 s
        run(0.30, true, false, FLAME);
        assertThat(control.gasValve()).isFalse();
        assertThat(control.lastFailure()).isEqualTo(Failure.DRAFT_LOST);
        until(State.RUN, true, true, FLAME);
        assertThat(control.attempts()).isEqualTo(2);
        assertThat(phases).endsWith("recycle", "spin-up", "pre-purge", "igniter-warm-up", "trial-for-ignition", "run");
    }

    @Test
    void givenRun_whenFlameIsLost_thenGasShutsWithinTheFailureTimeAndRecycles() {
        until(State.RUN, true, true, FLAME);
        run(10, true, true, FLAME);
        run(0.7, true, true, 0);
        assertThat(control.gasValve()).isTrue();
        run(0.2, true, true, 0);
        assertThat(control.gasValve()).isFalse();
        assertThat(control.lastFailure()).isEqualTo(Failure.FLAME_LOST);
    }

    @Test
    void givenRunsOfAMinuteBetweenFailures_thenNoLockout() {
        for (int i = 0; i < 6; i++) {
            until(State.RUN, true, true, FLAME);
            run(61, true, true, FLAME);
            run(0.5, true, false, FLAME);
            assertThat(control.state()).isEqualTo(State.INTER_PURGE);
        }
    }

    @Test
    void givenPrePurge_whenContactOpens_thenPurgeStartsAgain() {
        until(State.PRE_PURGE, true, true, FLAME);
        run(10, true, true, FLAME);
        run(1, true, false, FLAME);
        assertThat(until(State.IGNITER_WARM_UP, true, true, FLAME)).isCloseTo(15.25, within(0.05));
    }
}
