package draftwitness.recording;

import draftwitness.recording.RecordingException.Kind;
import java.sql.PreparedStatement;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.time.DateTimeException;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeMap;
import java.util.function.Predicate;

/**
 * The table of notes: rows are only ever added, and the last row of a note is how it stands. A row that takes another
 * one back names it, so that one can go back step by step, and forward again.
 *
 * <p>A row is in force unless a later row in force takes it back: an undo takes back a change, a redo takes back an
 * undo. Stateless.
 */
final class NoteLog {

    /**
     * One row.
     *
     * @param number the row's key, from 1 without holes
     * @param note how the note stands after it
     * @param removed whether the note is gone after it
     * @param takesBack the row that it takes back, or 0
     * @param intact false if its checksum is wrong
     */
    record Change(long number, Note note, boolean removed, long takesBack, boolean intact) {
        boolean isOwn() {
            return takesBack == 0;
        }
    }

    private NoteLog() {}

    static List<Change> read(Database database) throws RecordingException {
        List<Change> changes = new ArrayList<>();
        try (PreparedStatement query = database.prepare("SELECT change, note, from_ns, to_ns, text, written, removed,"
                        + " takes_back, crc32c FROM note ORDER BY change");
                ResultSet row = query.executeQuery()) {
            while (row.next()) {
                Note note = new Note(
                        row.getLong(2),
                        row.getLong(3),
                        row.getLong(4),
                        Header.column(row, 5),
                        Instant.parse(Header.column(row, 6)));
                changes.add(change(row.getLong(1), note, row.getLong(7), row.getLong(8), row.getLong(9)));
            }
            return changes;
        } catch (SQLException e) {
            throw Database.reading(database.file(), e);
        } catch (IllegalArgumentException | DateTimeException e) {
            throw new RecordingException(
                    Kind.DAMAGED, database.file(), "a note is damaged (" + e.getMessage() + "); readings are not", e);
        }
    }

    static Change change(long number, Note note, long removed, long takesBack, long crc) {
        Change bare = new Change(number, note, removed != 0, takesBack, true);
        return new Change(number, note, removed != 0, takesBack, crc == Checksum.of(bare));
    }

    /** Adds a row after all others. */
    static void append(Database database, Note note, boolean removed, long takesBack) throws RecordingException {
        long number = database.number("SELECT coalesce(max(change), 0) + 1 FROM note");
        insert(database, new Change(number, note, removed, takesBack, true));
    }

    static void insert(Database database, Change change) throws RecordingException {
        Note note = change.note();
        try (PreparedStatement insert = database.prepare("INSERT INTO note(change, note, from_ns, to_ns, text, written,"
                + " removed, takes_back, crc32c) VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?)")) {
            insert.setLong(1, change.number());
            insert.setLong(2, note.id());
            insert.setLong(3, note.fromNanos());
            insert.setLong(4, note.toNanos());
            insert.setString(5, note.text());
            insert.setString(6, note.written().toString());
            insert.setInt(7, change.removed() ? 1 : 0);
            insert.setLong(8, change.takesBack());
            insert.setLong(9, Checksum.of(change));
            insert.executeUpdate();
        } catch (SQLException e) {
            throw Database.writing(database.file(), e);
        }
    }

    /** The notes as they stand, by time. */
    static List<Note> notes(List<Change> changes) {
        Map<Long, Note> notes = new TreeMap<>();
        for (Change change : changes) {
            if (change.removed()) {
                notes.remove(change.note().id());
            } else {
                notes.put(change.note().id(), change.note());
            }
        }
        return notes.values().stream()
                .sorted(Comparator.comparingLong(Note::fromNanos).thenComparingLong(Note::id))
                .toList();
    }

    /** The last change in force that an undo would take back. */
    static Optional<Change> toUndo(List<Change> changes, Predicate<Note> which) {
        return last(inForce(changes), c -> c.isOwn() && which.test(c.note()));
    }

    /** The last undo in force that a redo would take back: none when something was changed after it. */
    static Optional<Change> toRedo(List<Change> changes) {
        List<Change> inForce = inForce(changes);
        Set<Long> own = new HashSet<>();
        changes.stream().filter(Change::isOwn).forEach(c -> own.add(c.number()));
        Optional<Change> undo = last(inForce, c -> own.contains(c.takesBack()));
        long lastOwn = last(changes, Change::isOwn).map(Change::number).orElse(0L);
        return undo.filter(c -> c.number() > lastOwn);
    }

    /** How a note stood before a row in force. */
    static Optional<Change> before(List<Change> changes, Change row) {
        return last(
                inForce(changes),
                c -> c.isOwn()
                        && c.number() < row.number()
                        && c.note().id() == row.note().id());
    }

    private static List<Change> inForce(List<Change> changes) {
        Set<Long> takenBack = new HashSet<>();
        List<Change> inForce = new ArrayList<>();
        for (int i = changes.size() - 1; i >= 0; i--) {
            Change change = changes.get(i);
            if (!takenBack.contains(change.number())) {
                inForce.add(0, change);
                takenBack.add(change.takesBack());
            }
        }
        return inForce;
    }

    private static Optional<Change> last(List<Change> changes, Predicate<Change> which) {
        return changes.stream().filter(which).reduce((a, b) -> b);
    }
}
