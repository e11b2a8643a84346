package draftwitness.input;

import java.math.BigDecimal;
import java.math.RoundingMode;
import java.util.Locale;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/** Lengths of time and moments in a session as people write them; every command reads them here. Pure. */
public final class Durations {
    private static final Pattern UNITS =
            Pattern.compile("(?:(\\d{1,5})d)?(?:(\\d{1,6})h)?(?:(\\d{1,7})m)?(?:(\\d{1,9}(?:\\.\\d{1,9})?)s?)?");
    /** {@code 7:40}, {@code 1:07:40}: every part but the first has two digits below 60. */
    private static final Pattern CLOCK =
            Pattern.compile("()(?:(\\d{1,6}):(?=\\d\\d:))?(\\d{1,7}):([0-5]\\d(?:\\.\\d{1,9})?)");

    private static final BigDecimal NANOS = BigDecimal.valueOf(1_000_000_000);

    private Durations() {}

    /**
     * Reads {@code 8h}, {@code 1h30m}, {@code 45s}, {@code 2.5s}, plain seconds, or {@code 7:40} and {@code 1:07:40} as
     * {@link #clock} writes it.
     *
     * @return nanoseconds, above 0
     * @throws InputException on anything else
     */
    public static long parseNanos(String text) throws InputException {
        long nanos = nanos(text);
        if (nanos > 0) {
            return nanos;
        }
        throw new InputException("'" + text + "' is not a length of time such as 8h, 1h30m, 45s or 7:40");
    }

    /**
     * Reads a moment, counted from a start: as {@link #parseNanos}, or 0; with a minus sign before the start.
     *
     * @return nanoseconds from the start
     * @throws InputException on anything else
     */
    public static long parseMomentNanos(String text) throws InputException {
        boolean before = text.startsWith("-");
        long nanos = nanos(before ? text.substring(1) : text);
        if (nanos >= 0) {
            return before ? -nanos : nanos;
        }
        throw new InputException(
                "'" + text + "' is not a time from the start such as 8m, 7:40, 1:07:40 or 460 (seconds)");
    }

    /** Nanoseconds, or -1 if it is no length of time. */
    private static long nanos(String text) {
        Matcher units = UNITS.matcher(text);
        Matcher clock = CLOCK.matcher(text);
        Matcher m = !text.isEmpty() && units.matches() ? units : clock;
        if (m == clock && !clock.matches()) {
            return -1;
        }
        if (m == clock && clock.group(2) != null && part(m, 3).intValue() >= 60) {
            return -1;
        }
        return part(m, 1)
                .multiply(BigDecimal.valueOf(86_400))
                .add(part(m, 2).multiply(BigDecimal.valueOf(3600)))
                .add(part(m, 3).multiply(BigDecimal.valueOf(60)))
                .add(part(m, 4))
                .multiply(NANOS)
                .setScale(0, RoundingMode.HALF_EVEN)
                .longValueExact();
    }

    private static BigDecimal part(Matcher m, int group) {
        String digits = m.group(group);
        return digits == null || digits.isEmpty() ? BigDecimal.ZERO : new BigDecimal(digits);
    }

    /** Writes a length of time as {@code 1:02:03}, to the nearest second. */
    public static String length(long nanos) {
        return clock(nanos + 500_000_000);
    }

    /** Writes session time as {@code 1:02:03} (hours, minutes, seconds; whole seconds, towards zero). */
    public static String clock(long nanos) {
        long s = nanos / 1_000_000_000;
        return String.format(Locale.ROOT, "%d:%02d:%02d", s / 3600, s / 60 % 60, s % 60);
    }
}
