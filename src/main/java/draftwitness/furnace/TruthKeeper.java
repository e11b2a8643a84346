package draftwitness.furnace;

import draftwitness.furnace.BurnerControl.State;
import draftwitness.reading.Tap;
import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * Writes down what the model does while it does it: cycles, phases and outcomes from the control's own state, flutter
 * from the contact itself, sags from the suction at the diaphragm without any instrument. Not thread-safe; one owner.
 */
final class TruthKeeper {
    /** Relative inducer speed below which suction is idle: 1 % of the pressure. */
    private static final double IDLE_SPEED = 0.1;

    private static final double CHATTER_SECONDS = 0.05;
    private static final double LIGHT_OFF_SECONDS = 3;

    private final Furnace furnace;
    private final List<Cycle> done = new ArrayList<>();
    private final List<Cycle.Phase> phases = new ArrayList<>();
    private final List<Double> transitions = new ArrayList<>();
    private final SagFinder sags = new SagFinder();

    private final Spells lockouts = new Spells();
    private final Spells closedInStandby = new Spells();

    private boolean open;
    private double start;
    private State before = State.STANDBY;
    private double phaseStart;
    private boolean contactBefore;
    private double litAt = Double.NEGATIVE_INFINITY;
    private boolean gasBefore;
    private int attempts;
    private BurnerControl.@Nullable Failure failure;
    private boolean endedByCall;
    private boolean lockedOut;
    private boolean tracking;

    TruthKeeper(Furnace furnace) {
        this.furnace = furnace;
    }

    /** To be called after each tick of the furnace. */
    void tick() {
        BurnerControl control = furnace.control();
        State state = control.state();
        double now = furnace.now();
        if (state != before) {
            changed(state, now);
        }
        if (open) {
            attempts = Math.max(attempts, control.attempts());
            failure = control.lastFailure() != null ? control.lastFailure() : failure;
            contact(control, state, now);
            suction(control, state, now);
            boolean over = state == State.STANDBY || state == State.LOCKOUT;
            if (over && !control.inducer() && furnace.inducerSpeed() < IDLE_SPEED) {
                finish(now);
            }
        }
        lockouts.tick(state == State.LOCKOUT, now);
        closedInStandby.tick(control.closedInStandby(), now);
        contactBefore = furnace.pressureSwitch().closed();
        before = state;
    }

    private void changed(State state, double now) {
        endPhase(now);
        if (state == State.SPIN_UP && before == State.STANDBY) {
            if (open) {
                finish(now);
            }
            begin(now);
        }
        if (before == State.RUN) {
            endedByCall = state == State.POST_PURGE;
        } else if (state == State.RUN) {
            endedByCall = false;
        }
        lockedOut |= state == State.LOCKOUT;
        phaseStart = now;
        sags.newPhase(now);
    }

    private void begin(double now) {
        open = true;
        start = now;
        phases.clear();
        transitions.clear();
        sags.clear();
        attempts = 0;
        failure = null;
        endedByCall = false;
        lockedOut = false;
    }

    private void endPhase(double now) {
        if (!open || before == State.STANDBY || before == State.LOCKOUT) {
            return;
        }
        int last = phases.size() - 1;
        if (last >= 0 && phases.get(last).name().equals(before.phase)) {
            Cycle.Phase p = phases.get(last);
            phases.set(last, new Cycle.Phase(p.name(), p.startSeconds(), now));
        } else {
            phases.add(new Cycle.Phase(before.phase, phaseStart, now));
        }
    }

    private void contact(BurnerControl control, State state, double now) {
        boolean closed = furnace.pressureSwitch().closed();
        if (closed == contactBefore || state == State.SPIN_UP || !control.inducer()) {
            return;
        }
        int last = transitions.size() - 1;
        boolean chatter = closed
                && furnace.pressureSwitch().chatter()
                && last >= 0
                && now - transitions.get(last) < CHATTER_SECONDS + Furnace.TICK_SECONDS / 2;
        if (chatter) {
            transitions.remove(last);
        } else {
            transitions.add(now);
        }
    }

    private void suction(BurnerControl control, State state, double now) {
        boolean gas = control.gasValve();
        if (gas && !gasBefore) {
            litAt = Double.NEGATIVE_INFINITY;
        }
        if (gas && litAt == Double.NEGATIVE_INFINITY && furnace.at(Tap.FLAME_CURRENT) > 0.05) {
            litAt = now;
        }
        gasBefore = gas;
        boolean steady = control.inducer() && state != State.SPIN_UP && now - litAt > LIGHT_OFF_SECONDS;
        if (!steady && tracking) {
            sags.newPhase(now);
        }
        tracking = steady;
        if (steady) {
            sags.tick(now, furnace.suction());
        }
    }

    private void finish(double now) {
        done.add(cycle(now, false));
        open = false;
    }

    private Cycle cycle(double end, boolean cut) {
        String reason = lockedOut && failure != null ? failure.id : null;
        String outcome;
        if (lockedOut) {
            outcome = "lockout";
        } else if (endedByCall) {
            outcome = "heated";
        } else if (cut) {
            outcome = "incomplete";
        } else {
            outcome = failure == null ? "incomplete" : failure.id;
        }
        return new Cycle(start, end, outcome, reason, attempts, phases, Flutter.spans(transitions), sags.found());
    }

    /** From giving up until the next start. */
    List<Spells.Spell> lockoutsUntil(double seconds) {
        return lockouts.until(seconds);
    }

    /** When a call waited because the contact was closed with the inducer off. */
    List<Spells.Spell> closedInStandbyUntil(double seconds) {
        return closedInStandby.until(seconds);
    }

    /** All cycles so far; one that still lasts is given as incomplete. */
    List<Cycle> cyclesUntil(double seconds) {
        List<Cycle> all = new ArrayList<>(done);
        if (open) {
            List<Cycle.Phase> sofar = List.copyOf(phases);
            endPhase(seconds);
            all.add(cycle(seconds, true));
            phases.clear();
            phases.addAll(sofar);
        }
        return all;
    }
}
