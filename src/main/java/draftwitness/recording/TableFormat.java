package draftwitness.recording;

import java.nio.file.Path;
import java.util.Locale;
import java.util.Optional;

/** How a table is written. */
public enum TableFormat {
    /** Comma-separated values (RFC 4180), LF line ends. */
    CSV,
    /** Apache Parquet, Zstandard. */
    PARQUET;

    /** What a file's name says by its ending, {@code .csv} or {@code .parquet}. */
    public static Optional<TableFormat> of(Path file) {
        String name = file.toString().toLowerCase(Locale.ROOT);
        return name.endsWith(".csv")
                ? Optional.of(CSV)
                : name.endsWith(".parquet") ? Optional.of(PARQUET) : Optional.empty();
    }
}
