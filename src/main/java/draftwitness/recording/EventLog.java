package draftwitness.recording;

import draftwitness.reading.SourceEvent;
import draftwitness.reading.SourceState;
import draftwitness.recording.RecordingException.Kind;
import java.sql.PreparedStatement;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.util.ArrayList;
import java.util.List;

/** Reads events from a file. Stateless. */
final class EventLog {

    /** An event, the number it has in the file, and the cell that it travelled in. */
    record Entry(long number, long cell, SourceEvent event, boolean intact) {}

    private EventLog() {}

    /**
     * So many events, all of them good.
     *
     * @throws RecordingException if the file cannot be read, or one of the events is missing or damaged
     */
    static List<Entry> complete(FileAccess access, long first, long number) throws RecordingException {
        if (number == 0) {
            return List.of();
        }
        List<Entry> entries = access.with(database -> read(database, first, first + number));
        boolean good = entries.size() == number;
        for (Entry entry : entries) {
            good &= entry.intact();
        }
        if (!good) {
            throw new RecordingException(
                    Kind.DAMAGED,
                    access.file(),
                    "an event of a source is missing or damaged; 'verify' tells what can be recovered");
        }
        return entries;
    }

    /** The events with numbers from {@code first} to below {@code end}, good or not. */
    static List<Entry> read(Database database, long first, long end) throws RecordingException {
        List<Entry> entries = new ArrayList<>();
        try (PreparedStatement query = database.prepare("SELECT number, cell, time_ns, source, state, detail, crc32c"
                + " FROM event WHERE number >= ? AND number < ? ORDER BY number")) {
            query.setLong(1, first);
            query.setLong(2, end);
            try (ResultSet row = query.executeQuery()) {
                while (row.next()) {
                    entries.add(entry(row));
                }
            }
        } catch (SQLException e) {
            throw Database.reading(database.file(), e);
        } catch (IllegalArgumentException e) {
            throw new RecordingException(
                    Kind.DAMAGED,
                    database.file(),
                    "an event is damaged (" + e.getMessage() + "); 'verify' tells what can be recovered",
                    e);
        }
        return entries;
    }

    private static Entry entry(ResultSet row) throws SQLException {
        SourceEvent event = new SourceEvent(
                Header.column(row, 4),
                row.getLong(3),
                SourceState.valueOf(Header.column(row, 5)),
                Header.column(row, 6));
        long number = row.getLong(1);
        long cell = row.getLong(2);
        return new Entry(number, cell, event, row.getLong(7) == Checksum.of(number, cell, event));
    }
}
