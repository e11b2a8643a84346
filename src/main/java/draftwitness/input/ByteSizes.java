package draftwitness.input;

import java.util.Locale;

/** Sizes of files as they are told to people. Pure. */
public final class ByteSizes {
    private ByteSizes() {}

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
