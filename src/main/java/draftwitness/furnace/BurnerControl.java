package draftwitness.furnace;

import draftwitness.furnace.House.Sequence;
import org.jspecify.annotations.Nullable;

/**
 * The burner control. It sees the thermostat, the switch's contact and the flame current, and nothing else.
 *
 * <p>How it works: one state at a time, named as the phases of a cycle are. Each failed attempt is counted; as many in
 * a row as the sequence allows end in lockout, which time or the end of the call resets. A run of a minute forgets the
 * failures before it. Before the inducer starts the contact must be seen open. Seconds, microampere. Not thread-safe.
 */
final class BurnerControl {
    /** Flame current above which the control takes a flame as there, uA (typical, from memory). */
    static final double FLAME_MICROAMPERES = 0.5;

    private static final double STABLE_RUN_SECONDS = 60;

    /** A state; {@link #phase} is the word used in files. */
    enum State {
        STANDBY("standby"),
        SPIN_UP("spin-up"),
        PRE_PURGE("pre-purge"),
        IGNITER_WARM_UP("igniter-warm-up"),
        TRIAL("trial-for-ignition"),
        RUN("run"),
        POST_PURGE("post-purge"),
        INTER_PURGE("recycle"),
        PAUSE("recycle"),
        LOCKOUT("lockout");

        final String phase;

        State(String phase) {
            this.phase = phase;
        }
    }

    /** Why an attempt failed; {@link #id} is the outcome used in files. */
    enum Failure {
        FAILED_TO_PROVE("failed-to-prove"),
        FAILED_TO_LIGHT("failed-to-light"),
        FLAME_LOST("flame-lost"),
        DRAFT_LOST("draft-lost");

        final String id;

        Failure(String id) {
            this.id = id;
        }
    }

    private final Sequence times;
    private State state = State.STANDBY;
    private double entered;
    private double clearSince;
    private double fireSince;
    private double fireEnded = Double.NEGATIVE_INFINITY;
    private boolean seenClosed;
    private double contactAgreed;
    private double flameAgreed;
    private boolean seenFlame;
    private int failures;
    private int attempts;
    private @Nullable Failure lastFailure;
    private boolean closedInStandby;
    private boolean inducerAfterLockout;
    private double clearStart;

    BurnerControl(Sequence times) {
        this.times = times;
    }

    State state() {
        return state;
    }

    boolean inducer() {
        return switch (state) {
            case STANDBY, PAUSE -> false;
            case LOCKOUT -> inducerAfterLockout;
            default -> true;
        };
    }

    boolean igniter() {
        return state == State.IGNITER_WARM_UP || state == State.TRIAL;
    }

    boolean gasValve() {
        return state == State.TRIAL || state == State.RUN;
    }

    /** Whether the air blower runs at time {@code now}. */
    boolean blower(double now) {
        return state == State.RUN
                ? now - fireSince >= times.blowerOn() || now - fireEnded < times.blowerOff()
                : now - fireEnded < times.blowerOff();
    }

    /** Whether a two-stage furnace runs at its low stage: from the start until the call has lasted. */
    boolean lowFire(double now) {
        return state == State.RUN && now - fireSince < times.lowFire();
    }

    /** Attempts since the call's first start. */
    int attempts() {
        return attempts;
    }

    /** Why the last failed attempt of this call failed, or null. */
    @Nullable
    Failure lastFailure() {
        return lastFailure;
    }

    /** Whether a call waits because the contact is closed with the inducer off. */
    boolean closedInStandby() {
        return closedInStandby;
    }

    /** How long the present state lasts, s. */
    double elapsed(double now) {
        return now - entered;
    }

    /** One look at the inputs. */
    void step(double now, boolean call, boolean contactClosed, double flameMicroamperes) {
        look(now, contactClosed, flameMicroamperes);
        double elapsed = now - entered;
        if (!call && state != State.STANDBY && state != State.POST_PURGE) {
            endOfCall(now);
            return;
        }
        switch (state) {
            case STANDBY -> start(now, call);
            case SPIN_UP -> prove(now, elapsed);
            case PRE_PURGE -> purge(now);
            case IGNITER_WARM_UP -> warmUp(now, elapsed);
            case TRIAL -> trial(now, elapsed);
            case RUN -> run(now, elapsed);
            case POST_PURGE -> {
                if (elapsed >= times.postPurge()) {
                    enter(State.STANDBY, now);
                }
            }
            case INTER_PURGE -> {
                if (elapsed >= times.interPurge()) {
                    afterInterPurge(now);
                }
            }
            case PAUSE -> {
                if (elapsed >= times.retryDelay()) {
                    start(now, true);
                }
            }
            case LOCKOUT -> lockedOut(now, elapsed);
        }
    }

    private void prove(double now, double elapsed) {
        if (seenClosed) {
            enter(State.PRE_PURGE, now);
        } else if (elapsed >= times.provingLimit()) {
            fail(Failure.FAILED_TO_PROVE, now);
        }
    }

    private void warmUp(double now, double elapsed) {
        if (!seenClosed) {
            enter(State.PRE_PURGE, now);
        } else if (elapsed >= times.igniterWarmUp()) {
            enter(State.TRIAL, now);
        }
    }

    private void lockedOut(double now, double elapsed) {
        inducerAfterLockout = elapsed < times.postPurge();
        if (elapsed >= times.lockout()) {
            reset();
            enter(State.STANDBY, now);
        }
    }

    private void look(double now, boolean contactClosed, double flameMicroamperes) {
        if (contactClosed == seenClosed) {
            contactAgreed = now;
        } else if (now - contactAgreed >= times.switchFilter()) {
            seenClosed = contactClosed;
        }
        boolean flame = flameMicroamperes >= FLAME_MICROAMPERES;
        if (flame == seenFlame) {
            flameAgreed = now;
        } else if (now - flameAgreed >= (flame ? 0.3 : times.flameFailure())) {
            seenFlame = flame;
        }
    }

    private void start(double now, boolean call) {
        closedInStandby = call && seenClosed;
        if (call && !seenClosed) {
            attempts++;
            enter(State.SPIN_UP, now);
        } else if (!call) {
            reset();
        }
    }

    private void purge(double now) {
        if (!seenClosed) {
            clearSince = now;
            if (now - clearStart >= times.provingLimit()) {
                fail(Failure.FAILED_TO_PROVE, now);
            }
        } else {
            clearStart = now;
            if (now - clearSince >= times.prePurge()) {
                enter(State.IGNITER_WARM_UP, now);
            }
        }
    }

    private void trial(double now, double elapsed) {
        if (!seenClosed) {
            fail(Failure.DRAFT_LOST, now);
        } else if (seenFlame) {
            fireSince = now;
            enter(State.RUN, now);
        } else if (elapsed >= times.trialForIgnition()) {
            fail(Failure.FAILED_TO_LIGHT, now);
        }
    }

    private void run(double now, double elapsed) {
        if (elapsed >= STABLE_RUN_SECONDS) {
            failures = 0;
        }
        if (!seenClosed) {
            fail(Failure.DRAFT_LOST, now);
        } else if (!seenFlame) {
            fail(Failure.FLAME_LOST, now);
        }
    }

    private void endOfCall(double now) {
        boolean purge = state == State.RUN || state == State.TRIAL || state == State.INTER_PURGE;
        endFire(now);
        reset();
        enter(purge ? State.POST_PURGE : State.STANDBY, now);
    }

    private void endFire(double now) {
        if (state == State.RUN && now - fireSince >= times.blowerOn()) {
            fireEnded = now;
        }
    }

    private void fail(Failure why, double now) {
        endFire(now);
        lastFailure = why;
        failures++;
        if (failures >= times.attempts()) {
            inducerAfterLockout = true;
            enter(State.LOCKOUT, now);
        } else {
            enter(why == Failure.FAILED_TO_PROVE ? State.PAUSE : State.INTER_PURGE, now);
        }
    }

    /** With the draft proven all along the next attempt starts at the igniter; else from the very beginning. */
    private void afterInterPurge(double now) {
        if (lastFailure == Failure.DRAFT_LOST || !seenClosed) {
            enter(State.PAUSE, now);
        } else {
            attempts++;
            enter(State.IGNITER_WARM_UP, now);
        }
    }

    private void reset() {
        failures = 0;
        attempts = 0;
        lastFailure = null;
        closedInStandby = false;
    }

    private void enter(State next, double now) {
        state = next;
        entered = now;
        clearSince = now;
        clearStart = now;
    }
}
