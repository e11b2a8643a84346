package draftwitness.recording;

import draftwitness.reading.Slice;
import java.sql.PreparedStatement;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Deque;
import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * Thins packed rows that fell out of the memory of a {@link KeepPolicy} and that no claimed span needs: their readings
 * go, a row that says how many there were takes their place. One owner thread, inside the writer's transactions.
 */
final class Thinner {
    private final KeepPolicy policy;
    private final Database database;
    private final PreparedStatement select;
    private final PreparedStatement update;
    /** Claimed spans with their margins, in cells: from, end. */
    private final List<long[]> claims = new ArrayList<>();
    /** First cells of full-rate packed rows not judged yet, and of those that claims kept. */
    private final Deque<Long> waiting = new ArrayDeque<>();

    private final Deque<Long> kept = new ArrayDeque<>();
    private boolean overBudget;

    Thinner(KeepPolicy policy, Database database) throws RecordingException {
        this.policy = policy;
        this.database = database;
        select = database.prepare("SELECT " + StretchRow.COLUMNS + " FROM stretch WHERE first_cell = ?");
        update = database.prepare("UPDATE stretch SET readings = ?, late_cells = 0, codec = ?, crc32c = ?, payload = ?"
                + " WHERE first_cell = ?");
    }

    /** Keeps a span with its margins, as far as it is not thinned yet. */
    void claim(long fromNanos, long toNanos) {
        claims.add(new long[] {
            Slice.indexOf(fromNanos - policy.marginNanos()), Slice.indexOf(toNanos + policy.marginNanos()) + 1
        });
    }

    /** True when the file is larger than allowed although nothing is left to be thinned but the memory. */
    boolean overBudget() {
        return overBudget;
    }

    /** A packed row was written; thins what is due. */
    void packed(long firstCell, long endCell) throws SQLException, RecordingException {
        waiting.add(firstCell);
        long memory = policy.memoryBegins(endCell);
        while (waiting.size() > 1 && nextOf(waiting) <= memory) {
            long row = waiting.remove();
            long end = waiting.element();
            if (claimed(row, end)) {
                kept.add(row);
            } else {
                thin(row);
            }
        }
        claims.removeIf(c -> c[1] < memory && waiting.element() > c[1]);
        while (usedBytes() > policy.budgetBytes() && !kept.isEmpty()) {
            thin(kept.remove());
        }
        overBudget = usedBytes() > policy.budgetBytes();
    }

    private static long nextOf(Deque<Long> rows) {
        var iterator = rows.iterator();
        iterator.next();
        return iterator.next();
    }

    private boolean claimed(long from, long end) {
        return claims.stream().anyMatch(c -> c[0] < end && c[1] > from);
    }

    private long usedBytes() throws RecordingException {
        return (database.number("PRAGMA page_count") - database.number("PRAGMA freelist_count")) * Schema.PAGE_BYTES;
    }

    private void thin(long firstCell) throws SQLException {
        StretchRow row = row(firstCell);
        if (row == null || row.codec() == StretchCodec.THINNED) {
            return;
        }
        StretchRow thin = row.thinned();
        update.setInt(1, 0);
        update.setInt(2, thin.codec());
        update.setLong(3, thin.crc());
        update.setBytes(4, thin.payload());
        update.setLong(5, firstCell);
        update.executeUpdate();
    }

    private @Nullable StretchRow row(long firstCell) throws SQLException {
        select.setLong(1, firstCell);
        try (ResultSet result = select.executeQuery()) {
            return result.next() ? StretchRow.of(result) : null;
        }
    }

    void close() throws SQLException {
        select.close();
        update.close();
    }
}
