package draftwitness.dashboard;

/** Light or dark. */
public enum Theme {
    LIGHT,
    DARK;

    public Palette palette() {
        return this == LIGHT ? Palette.LIGHT : Palette.DARK;
    }

    /** The other one. */
    public Theme other() {
        return this == LIGHT ? DARK : LIGHT;
    }
}
