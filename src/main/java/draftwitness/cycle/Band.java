package draftwitness.cycle;

import java.util.Locale;

/** How good a margin is. */
public enum Band {
    THIN,
    MODEST,
    HEALTHY;

    /** The word used in files. */
    public String id() {
        return name().toLowerCase(Locale.ROOT);
    }
}
