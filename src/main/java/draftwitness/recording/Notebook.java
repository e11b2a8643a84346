package draftwitness.recording;

import draftwitness.recording.RecordingException.Kind;
import java.nio.file.Path;
import java.sql.PreparedStatement;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.time.DateTimeException;
import java.time.Instant;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;

/**
 * The notes of one recording, which may be changed after it was finished, or while it goes on. Readings, events and
 * header are never touched: notes have a table of their own, and a change only ever adds a row to it, so that every
 * change can be undone and nothing that was written is lost.
 *
 * <p>Each call opens and closes the file. One owner thread.
 */
public final class Notebook {
    private final Path file;

    private Notebook(Path file) {
        this.file = file;
    }

    /**
     * The notes of a recording.
     *
     * @throws RecordingException if it is not a recording that this program can read
     */
    public static Notebook of(Path file) throws RecordingException {
        try (Database database = Database.forReading(file)) {
            Header.read(database);
        }
        return new Notebook(file);
    }

    /** The notes as they stand, by time. */
    public List<Note> notes() throws RecordingException {
        try (Database database = Database.forReading(file)) {
            Map<Long, Note> notes = new TreeMap<>();
            for (Change change : changes(database)) {
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
    }

    /**
     * Adds a note.
     *
     * @param written now, by the wall clock
     */
    public Note add(long fromNanos, long toNanos, String text, Instant written) throws RecordingException {
        try (Database database = writable()) {
            long id = database.number("SELECT coalesce(max(note), 0) + 1 FROM note");
            Note note = new Note(id, fromNanos, toNanos, text, written);
            put(database, note, false);
            return note;
        }
    }

    /** Changes the note with the same id. */
    public void change(Note note) throws RecordingException {
        try (Database database = writable()) {
            put(database, note, false);
        }
    }

    /** Removes a note. */
    public void remove(Note note, Instant written) throws RecordingException {
        try (Database database = writable()) {
            put(database, new Note(note.id(), note.fromNanos(), note.toNanos(), note.text(), written), true);
        }
    }

    /**
     * Takes a note back to what it was before its last change, by writing that once more. Undoing twice restores the
     * change.
     *
     * @param written now, by the wall clock
     */
    public void undo(long id, Instant written) throws RecordingException {
        try (Database database = writable()) {
            List<Change> changes =
                    changes(database).stream().filter(c -> c.note().id() == id).toList();
            if (changes.isEmpty()) {
                return;
            }
            Change last = changes.get(changes.size() - 1);
            Change before = changes.size() == 1
                    ? new Change(last.note(), true) // it was added: undone means removed
                    : changes.get(changes.size() - 2);
            Note n = before.note();
            put(database, new Note(id, n.fromNanos(), n.toNanos(), n.text(), written), before.removed());
        }
    }

    private record Change(Note note, boolean removed) {}

    private Database writable() throws RecordingException {
        Database database = Database.forWriting(file, file);
        try {
            Header.read(database);
            return database;
        } catch (RecordingException e) {
            database.close();
            throw e;
        }
    }

    private static List<Change> changes(Database database) throws RecordingException {
        List<Change> changes = new java.util.ArrayList<>();
        try (PreparedStatement query = database.prepare(
                        "SELECT note, from_ns, to_ns, text, written, removed FROM note ORDER BY change");
                ResultSet row = query.executeQuery()) {
            while (row.next()) {
                Note note = new Note(
                        row.getLong(1),
                        row.getLong(2),
                        row.getLong(3),
                        Header.column(row, 4),
                        Instant.parse(Header.column(row, 5)));
                changes.add(new Change(note, row.getInt(6) != 0));
            }
            return changes;
        } catch (SQLException e) {
            throw Database.reading(database.file(), e);
        } catch (IllegalArgumentException | DateTimeException e) {
            throw new RecordingException(
                    Kind.DAMAGED, database.file(), "a note is damaged (" + e.getMessage() + "); readings are not", e);
        }
    }

    private static void put(Database database, Note note, boolean removed) throws RecordingException {
        try (PreparedStatement insert = database.prepare(
                "INSERT INTO note(note, from_ns, to_ns, text, written, removed) VALUES (?, ?, ?, ?, ?, ?)")) {
            insert.setLong(1, note.id());
            insert.setLong(2, note.fromNanos());
            insert.setLong(3, note.toNanos());
            insert.setString(4, note.text());
            insert.setString(5, note.written().toString());
            insert.setInt(6, removed ? 1 : 0);
            insert.executeUpdate();
        } catch (SQLException e) {
            throw Database.writing(database.file(), e);
        }
    }
}
