package draftwitness.cycle;

import draftwitness.reading.Unit;
import java.util.Locale;

/** Numbers in plain sentences: pressures in the unit of the channel, times in seconds. Pure. */
final class Wording {
    private static final double INCH = 249.08891;

    private final Unit unit;

    Wording(Unit unit) {
        this.unit = unit;
    }

    /** A pressure with its unit, for example {@code 1.41 inH2O}. */
    String pressure(double pascals) {
        int decimals = unit == Unit.INCH_OF_WATER ? 2 : unit == Unit.PASCAL ? 0 : unit.usualDecimals();
        double shown = unit.fromBase(pascals);
        return String.format(Locale.ROOT, "%." + decimals + "f %s", shown == 0 ? 0.0 : shown, unit.symbol());
    }

    /** A duration in seconds. */
    static String seconds(long nanos) {
        double s = nanos / 1e9;
        return String.format(Locale.ROOT, s < 10 ? "%.1f s" : "%.0f s", s);
    }

    /** Into a phase, for example {@code 31 s into run}. */
    static String into(PhaseSpan phase, long timeNanos) {
        return seconds(timeNanos - phase.startNanos()) + " into "
                + phase.phase().id();
    }

    static String percent(double share) {
        return String.format(Locale.ROOT, "%.0f %%", share * 100);
    }

    static String hertz(double frequency) {
        return String.format(Locale.ROOT, "%.2f Hz", frequency);
    }

    /** A pressure in inches of water, for settings that are common practice in that unit. */
    static String inches(double pascals) {
        return String.format(Locale.ROOT, "%.2f inH2O", pascals / INCH);
    }
}
