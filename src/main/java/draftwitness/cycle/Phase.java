package draftwitness.cycle;

/** A part of the burner sequence; {@link #id} is the word used in files. */
public enum Phase {
    SPIN_UP("spin-up"),
    PRE_PURGE("pre-purge"),
    IGNITER_WARM_UP("igniter-warm-up"),
    TRIAL("trial-for-ignition"),
    RUN("run"),
    POST_PURGE("post-purge"),
    RECYCLE("recycle");

    private final String id;

    Phase(String id) {
        this.id = id;
    }

    /** The word used in files. */
    public String id() {
        return id;
    }
}
