package draftwitness.cycle;

/** A part of the burner sequence; {@link #id} is the word used in files. */
public enum Phase {
    /** The inducer is off and no call is being answered; between cycles, never inside one. */
    STANDBY("standby"),
    SPIN_UP("spin-up"),
    PRE_PURGE("pre-purge"),
    IGNITER_WARM_UP("igniter-warm-up"),
    TRIAL("trial-for-ignition"),
    RUN("run"),
    POST_PURGE("post-purge"),
    /** Anything between two attempts of one call, the inducer on or off. */
    RECYCLE("recycle"),
    /** All attempts are used up and nothing moves until the next start; outside the cycle's span. */
    LOCKOUT("lockout");

    private final String id;

    Phase(String id) {
        this.id = id;
    }

    /** The word used in files. */
    public String id() {
        return id;
    }
}
