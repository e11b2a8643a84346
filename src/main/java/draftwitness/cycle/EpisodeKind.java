package draftwitness.cycle;

/** What kind of a thing an {@link Episode} is; {@link #id} is the word used in files. */
public enum EpisodeKind {
    FLUTTER("flutter", Severity.WARNING),
    NEAR_FLUTTER("near-flutter", Severity.ATTENTION),
    SAG("sag", Severity.ATTENTION),
    LATE_PROVING("late-proving", Severity.ATTENTION),
    NO_PROVING("no-proving", Severity.WARNING),
    LIGHT_OFF_DIP("light-off-dip", Severity.NOTE),
    BLOWER_STEP("blower-step", Severity.DANGER),
    GAS_SAG("gas-sag", Severity.ATTENTION),
    GAS_OFF_TARGET("gas-off-target", Severity.WARNING),
    GAS_HUNTING("gas-hunting", Severity.ATTENTION),
    CONTACT_DISAGREES("contact-disagrees", Severity.WARNING),
    CONTACT_CHATTER("contact-chatter", Severity.WARNING),
    READING_GAP("reading-gap", Severity.NOTE),
    DRIFT("drift", Severity.WARNING);

    private final String id;
    private final Severity severity;

    EpisodeKind(String id, Severity severity) {
        this.id = id;
        this.severity = severity;
    }

    /** The word used in files. */
    public String id() {
        return id;
    }

    /** How much it asks for a person. */
    public Severity severity() {
        return severity;
    }
}
