package draftwitness.recording;

import draftwitness.reading.SourceEvent;
import draftwitness.reading.SourceState;
import draftwitness.recording.RecordingException.Kind;
import java.sql.PreparedStatement;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.util.ArrayList;
import java.util.List;

/** Reads the events of a file in order. One owner thread. */
final class EventLog {

    /** An event, the number it has in the file, and the cell that it travelled in. */
    record Entry(long number, long cell, SourceEvent event, boolean intact) {}

    private final FileAccess access;
    private final long firstCell;
    private long nextNumber;

    EventLog(FileAccess access, long firstCell) {
        this.access = access;
        this.firstCell = firstCell;
    }

    /**
     * The events not given yet that travelled in cells before {@code endCell}.
     *
     * @throws RecordingException if the file cannot be read or one of the events is damaged
     */
    List<Entry> until(long endCell) throws RecordingException {
        List<Entry> entries = access.with(database -> read(database, nextNumber, firstCell, endCell));
        for (Entry entry : entries) {
            if (!entry.intact()) {
                throw new RecordingException(
                        Kind.DAMAGED,
                        access.file(),
                        "an event of " + entry.event().sourceId()
                                + " is damaged; 'verify' tells what can be recovered");
            }
            nextNumber = entry.number() + 1;
        }
        return entries;
    }

    static List<Entry> read(Database database, long firstNumber, long firstCell, long endCell)
            throws RecordingException {
        List<Entry> entries = new ArrayList<>();
        try (PreparedStatement query = database.prepare("SELECT number, cell, time_ns, source, state, detail, crc32c"
                + " FROM event WHERE number >= ? AND cell >= ? AND cell < ? ORDER BY number")) {
            query.setLong(1, firstNumber);
            query.setLong(2, firstCell);
            query.setLong(3, endCell);
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
