package draftwitness.cycle;

import java.util.Locale;

/** How much a finding asks for a person, least first. */
public enum Severity {
    NOTE,
    ATTENTION,
    WARNING,
    DANGER;

    /** The word used in files. */
    public String id() {
        return name().toLowerCase(Locale.ROOT);
    }
}
