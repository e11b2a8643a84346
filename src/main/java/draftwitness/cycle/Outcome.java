package draftwitness.cycle;

/** How a call for heat ended; {@link #id} is the word used in files. */
public enum Outcome {
    HEATED("heated", "heated"),
    FAILED_TO_PROVE("failed-to-prove", "the pressure switch did not prove air flow"),
    FAILED_TO_LIGHT("failed-to-light", "no flame within the trial for ignition"),
    FLAME_LOST("flame-lost", "the flame was lost"),
    DRAFT_LOST("draft-lost", "the pressure switch opened while the burner was on"),
    LOCKOUT("lockout", "all attempts were used up"),
    INCOMPLETE("incomplete", "the recording cuts it off before its end is certain");

    private final String id;
    private final String words;

    Outcome(String id, String words) {
        this.id = id;
        this.words = words;
    }

    /** The word used in files. */
    public String id() {
        return id;
    }

    /** In plain words. */
    public String words() {
        return words;
    }
}
