package draftwitness.dashboard;

/**
 * What a person has chosen for the screen.
 *
 * @param units unit of pressures
 * @param theme light or dark
 * @param span how much time the strips show
 * @param textScale size of text, 1 for normal, 0.8 to 2
 * @param alarm whether lockouts and flutter of live sessions sound
 */
public record Settings(UnitChoice units, Theme theme, SpanChoice span, double textScale, boolean alarm) {
    public Settings {
        if (!(textScale >= 0.8 && textScale <= 2)) {
            throw new IllegalArgumentException("text scale " + textScale + " is outside 0.8..2");
        }
    }

    /** Before anything was chosen. */
    public static Settings defaults() {
        return new Settings(UnitChoice.AS_SENT, Theme.LIGHT, SpanChoice.MINUTES_2, 1, false);
    }

    public Settings with(UnitChoice newUnits) {
        return new Settings(newUnits, theme, span, textScale, alarm);
    }

    public Settings with(Theme newTheme) {
        return new Settings(units, newTheme, span, textScale, alarm);
    }

    public Settings with(SpanChoice newSpan) {
        return new Settings(units, theme, newSpan, textScale, alarm);
    }

    public Settings withTextScale(double scale) {
        return new Settings(units, theme, span, scale, alarm);
    }

    public Settings withAlarm(boolean on) {
        return new Settings(units, theme, span, textScale, on);
    }

    /** Keeps settings from one start of the program to the next; the program behind the window fills this in. */
    @FunctionalInterface
    public interface Store {
        /** Keeps these settings; returns at once. */
        void keep(Settings settings);
    }
}
