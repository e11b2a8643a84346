package draftwitness.input;

import java.util.Locale;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/** Sizes of files as they are told to people. Pure. */
public final class ByteSizes {
    private static final Pattern SIZE = Pattern.compile("(\\d{1,9}) ?(kB|MB|GB)");

    private ByteSizes() {}

    /**
     * Reads {@code 500MB}, {@code 2 GB}: powers of 1000.
     *
     * @return bytes, above 0
     * @throws InputException on anything else
     */
    public static long parse(String text) throws InputException {
        Matcher m = SIZE.matcher(text);
        long number = m.matches() ? Long.parseLong(m.group(1)) : 0;
        if (number == 0) {
            throw new InputException("'" + text + "' is not a size such as 500MB or 2GB");
        }
        return number
                * switch (m.group(2)) {
                    case "kB" -> 1000L;
                    case "MB" -> 1_000_000L;
                    default -> 1_000_000_000L;
                };
    }

    /** {@code 812 kB}, {@code 1.2 MB}, {@code 3.45 GB}: powers of 1000, and whole kilobytes rounded up. */
    public static String text(long bytes) {
        if (bytes < 1_000_000) {
            return (bytes + 999) / 1000 + " kB";
        }
        return bytes < 1_000_000_000
                ? String.format(Locale.ROOT, "%.1f MB", bytes / 1e6)
                : String.format(Locale.ROOT, "%.2f GB", bytes / 1e9);
    }
}
