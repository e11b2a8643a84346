package draftwitness.dashboard;

import draftwitness.input.ByteSizes;
import draftwitness.reading.Step;
import draftwitness.reading.Unit;
import java.math.BigDecimal;
import java.math.RoundingMode;
import java.time.Instant;
import java.time.ZoneId;
import java.time.format.DateTimeFormatter;
import java.util.Locale;
import java.util.concurrent.TimeUnit;
import org.jspecify.annotations.Nullable;

/** Writes numbers and times for the screen; the only class that does. Knows the resolution of readings. Pure. */
public final class Figures {
    private static final DateTimeFormatter CLOCK = DateTimeFormatter.ofPattern("HH:mm:ss", Locale.ROOT);
    private static final String MINUS = "\u2212";

    private Figures() {}

    /**
     * Decimals that show a step in a unit without inventing digits: as many as the step needs, at most one more than
     * shows a tenth of a pascal. Without a step, the unit's usual number.
     */
    public static int decimals(@Nullable Step step, Unit unit) {
        if (step == null) {
            return unit.usualDecimals();
        }
        if (step.unit() == unit) {
            return Math.min(step.decimals(), unit.usualDecimals() + 1);
        }
        double stepInUnit = unit.fromBase(step.inBase(1));
        return (int) Math.max(0, Math.min(unit.usualDecimals(), Math.ceil(-Math.log10(stepInUnit) - 1e-9)));
    }

    /** A value in base units, as a number in {@code unit} without the unit's symbol. */
    public static String number(double base, Unit unit, int decimals) {
        BigDecimal rounded = BigDecimal.valueOf(unit.fromBase(base)).setScale(decimals, RoundingMode.HALF_EVEN);
        return rounded.toPlainString().replace("-", MINUS);
    }

    /** A value in base units with the unit's symbol: {@code −231.4 Pa}. */
    public static String quantity(double base, Unit unit, int decimals) {
        return number(base, unit, decimals) + " " + symbol(unit);
    }

    /** The symbol of a unit as people write it. */
    public static String symbol(Unit unit) {
        return switch (unit) {
            case MICROAMPERE -> "\u00b5A";
            case CELSIUS -> "\u00b0C";
            case CONTACT -> "";
            default -> unit.symbol();
        };
    }

    /** A length of time as {@code 00:12:31}, whole seconds, rounded down. */
    public static String elapsed(long nanos) {
        long s = TimeUnit.NANOSECONDS.toSeconds(Math.max(0, nanos));
        return String.format(Locale.ROOT, "%02d:%02d:%02d", s / 3600, s / 60 % 60, s % 60);
    }

    /** A short length of time in words: {@code 12 s}, {@code 3 min 05 s}, {@code 2 h 07 min}. */
    public static String duration(long nanos) {
        long s = TimeUnit.NANOSECONDS.toSeconds(Math.max(0, nanos));
        if (s < 60) {
            return s + " s";
        }
        return s < 3600
                ? String.format(Locale.ROOT, "%d min %02d s", s / 60, s % 60)
                : String.format(Locale.ROOT, "%d h %02d min", s / 3600, s / 60 % 60);
    }

    /** Time of day of a session time, or the time from the start when the day is not known. */
    public static String timeOfDay(@Nullable Instant start, long nanos, ZoneId zone) {
        return start == null
                ? elapsed(nanos)
                : CLOCK.format(start.plusNanos(nanos).atZone(zone));
    }

    /** The same with milliseconds. */
    public static String timeOfDayFine(@Nullable Instant start, long nanos, ZoneId zone) {
        long millis = start == null
                ? Math.floorDiv(nanos, 1_000_000L)
                : start.plusNanos(nanos).toEpochMilli();
        return timeOfDay(start, nanos, zone) + String.format(Locale.ROOT, ".%03d", Math.floorMod(millis, 1000L));
    }

    /** A length of time in seconds: {@code 3.20 s}; with milliseconds when under ten seconds. */
    public static String seconds(long nanos) {
        double s = nanos / 1e9;
        return String.format(Locale.ROOT, s < 10 ? "%.3f s" : s < 1000 ? "%.2f s" : "%.0f s", s);
    }

    /** A file's size: {@code 812 kB}, {@code 1.2 MB} (powers of 1000). */
    public static String size(long bytes) {
        return ByteSizes.text(bytes);
    }

    /** A speed: {@code 0.25×}, {@code 4×}. */
    public static String speed(double times) {
        return BigDecimal.valueOf(times).stripTrailingZeros().toPlainString() + "\u00d7";
    }
}
