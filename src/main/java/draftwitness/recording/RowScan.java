package draftwitness.recording;

import java.sql.PreparedStatement;
import java.sql.ResultSet;
import java.sql.SQLException;
import org.jspecify.annotations.Nullable;

/**
 * Goes through the rows of {@code stretch} one at a time and steps over places where the database itself cannot be
 * read, by looking for the next key that can. One owner thread.
 */
final class RowScan {
    private static final long FARTHEST = 1L << 40;

    private final PreparedStatement query;
    /** True if rows could not be read between the row given last and the one before it. */
    private boolean steppedOver;

    private String reason = "";

    RowScan(PreparedStatement query) {
        this.query = query;
    }

    static String sql() {
        return "SELECT " + StretchRow.COLUMNS + " FROM stretch WHERE first_cell >= ? ORDER BY first_cell LIMIT 1";
    }

    boolean steppedOver() {
        return steppedOver;
    }

    /** What the database said where it could not be read. */
    String reason() {
        return reason;
    }

    /** The first readable row whose key is at least {@code key}, or null. */
    @Nullable
    StretchRow next(long key) {
        steppedOver = false;
        try {
            return query(key);
        } catch (SQLException e) {
            steppedOver = true;
            reason = String.valueOf(e.getMessage()).lines().findFirst().orElse("");
            return gallop(key);
        }
    }

    /** Doubles the distance until a row can be read, then halves the unreadable part. */
    private @Nullable StretchRow gallop(long key) {
        long bad = 0;
        long good = 0;
        StretchRow found = null;
        for (long distance = 1; distance < FARTHEST && found == null; distance *= 2) {
            found = tryQuery(key + distance);
            bad = found == null ? distance : bad;
            good = distance;
        }
        while (found != null && good - bad > 1) {
            long middle = (bad + good) >>> 1;
            StretchRow nearer = tryQuery(key + middle);
            if (nearer == null) {
                bad = middle;
            } else {
                good = middle;
                found = nearer;
            }
        }
        return found;
    }

    private @Nullable StretchRow tryQuery(long key) {
        try {
            return query(key);
        } catch (SQLException e) {
            return null;
        }
    }

    private @Nullable StretchRow query(long key) throws SQLException {
        query.setLong(1, key);
        try (ResultSet result = query.executeQuery()) {
            return result.next() ? StretchRow.of(result) : null;
        }
    }
}
