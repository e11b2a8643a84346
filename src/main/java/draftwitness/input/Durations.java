package draftwitness.input;

import java.util.Locale;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/** Lengths of time as people write them. Pure. */
public final class Durations {
    private static final Pattern FORM =
            Pattern.compile("(?:(\\d{1,5})d)?(?:(\\d{1,6})h)?(?:(\\d{1,7})m)?(?:(\\d{1,9}(?:\\.\\d{1,9})?)s?)?");

    private Durations() {}

    /**
     * Reads {@code 8h}, {@code 1h30m}, {@code 45s}, {@code 2.5s} or plain seconds.
     *
     * @return nanoseconds, above 0
     * @throws InputException on anything else
     */
    public static long parseNanos(String text) throws InputException {
        Matcher m = FORM.matcher(text);
        if (!text.isEmpty() && m.matches()) {
            double seconds = part(m, 1) * 86_400 + part(m, 2) * 3600 + part(m, 3) * 60 + part(m, 4);
            if (seconds > 0) {
                return Math.round(seconds * 1e9);
            }
        }
        throw new InputException("'" + text + "' is not a length of time such as 8h, 1h30m, 45s");
    }

    /**
     * Reads a moment, counted from a start: as {@link #parseNanos}, or 0.
     *
     * @throws InputException on anything else
     */
    public static long parseMomentNanos(String text) throws InputException {
        return text.matches("0+(\\.0+)?s?") ? 0 : parseNanos(text);
    }

    private static double part(Matcher m, int group) {
        String digits = m.group(group);
        return digits == null ? 0 : Double.parseDouble(digits);
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
