package draftwitness.dashboard;

/**
 * What a person has chosen for the screen.
 *
 * @param units unit of pressures
 * @param theme light or dark
 * @param span how much time the strips show
 * @param textScale size of text, 1 for normal, 0.8 to 2
 */
public record Settings(UnitChoice units, Theme theme, SpanChoice span, double textScale) {
    public Settings {
        if (!(textScale >= 0.8 && textScale <= 2)) {
            throw new IllegalArgumentException("text scale " + textScale + " is outside 0.8..2");
        }
    }

    /** Before anything was chosen. */
    public static Settings defaults() {
        return new Settings(UnitChoice.AS_SENT, Theme.LIGHT, SpanChoice.MINUTES_2, 1);
    }

    public Settings with(UnitChoice newUnits) {
        return new Settings(newUnits, theme, span, textScale);
    }

    public Settings with(Theme newTheme) {
        return new Settings(units, newTheme, span, textScale);
    }

    public Settings with(SpanChoice newSpan) {
        return new Settings(units, theme, newSpan, textScale);
    }

    public Settings withTextScale(double scale) {
        return new Settings(units, theme, span, scale);
    }

    /** Keeps settings from one start of the program to the next; the program behind the window fills this in. */
    @FunctionalInterface
    public interface Store {
        /** Keeps these settings; returns at once. */
        void keep(Settings settings);
    }
}
