package draftwitness.recording.parquet;

/**
 * One column of a table.
 *
 * @param name any text
 * @param kind what its values are
 * @param decimals digits after the point of a {@code DECIMAL}; of an {@code INSTANT}'s seconds 3, 6 or 9; else 0
 * @param optional true if a row may have no value
 */
public record ParquetColumn(String name, Kind kind, int decimals, boolean optional) {

    /** What the values of a column are. */
    public enum Kind {
        /** Whole counts of a decimal fraction: {@code count / 10^decimals}. */
        DECIMAL,
        /** Counts of {@code 10^-decimals} seconds since 1970-01-01T00:00:00Z. */
        INSTANT,
        /** The same of a clock whose zone is not told; read only. */
        LOCAL_TIME,
        /** Binary fractions; read only, as the shortest decimal that means the same number. */
        FLOATING,
        /** Something else, such as text; its values cannot be read. */
        OTHER
    }

    /** Most digits of a {@code DECIMAL} that is written. */
    public static final int MOST_DIGITS = 18;

    public ParquetColumn {
        if (decimals < 0 || decimals > MOST_DIGITS) {
            throw new IllegalArgumentException(decimals + " decimals are outside 0 to " + MOST_DIGITS);
        }
    }
}
