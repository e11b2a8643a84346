package draftwitness.recording;

import draftwitness.reading.Slice;
import java.sql.PreparedStatement;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.util.ArrayList;
import java.util.List;

/**
 * A span of a recording whose readings were thinned away: only their overview is left.
 *
 * @param fromNanos session time where it begins
 * @param toNanos session time where it ends (exclusive)
 * @param readings how many readings there were
 */
public record Thinned(long fromNanos, long toNanos, long readings) {

    static List<Thinned> read(Database database, int codec) throws RecordingException {
        List<Thinned> spans = new ArrayList<>();
        try (PreparedStatement query = database.prepare("SELECT " + StretchRow.COLUMNS + " FROM stretch WHERE codec = "
                        + codec + " ORDER BY first_cell");
                ResultSet result = query.executeQuery()) {
            while (result.next()) {
                StretchRow row = StretchRow.of(result);
                if (row.intact()) {
                    add(spans, row);
                }
            }
        } catch (SQLException e) {
            throw Database.reading(database.file(), e);
        }
        return spans;
    }

    private static void add(List<Thinned> spans, StretchRow row) {
        long from = row.firstCell() * Slice.CELL_NANOS;
        long readings = row.codec() == StretchCodec.THINNED ? new BitReader(row.payload()).varint() : 0;
        if (!spans.isEmpty() && spans.get(spans.size() - 1).toNanos() == from) {
            Thinned before = spans.remove(spans.size() - 1);
            from = before.fromNanos();
            readings += before.readings();
        }
        spans.add(new Thinned(from, row.endCell() * Slice.CELL_NANOS, readings));
    }
}
