package draftwitness.recording;

import java.nio.file.Path;
import java.time.Instant;
import java.util.List;
import java.util.Optional;
import java.util.function.Predicate;

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
            return NoteLog.notes(NoteLog.read(database));
        }
    }

    /**
     * Adds a note.
     *
     * @param toNanos equal to {@code fromNanos} for a moment, else above
     * @param text empty for a plain bookmark
     * @param written now, by the wall clock
     */
    public Note add(long fromNanos, long toNanos, String text, Instant written) throws RecordingException {
        return change(database -> {
            long id = database.number("SELECT coalesce(max(note), 0) + 1 FROM note");
            Note note = new Note(id, fromNanos, toNanos, text, written);
            NoteLog.append(database, note, false, 0);
            return note;
        });
    }

    /** Changes the note with the same id. */
    public void change(Note note) throws RecordingException {
        change(database -> {
            NoteLog.append(database, note, false, 0);
            return note;
        });
    }

    /**
     * Removes a note.
     *
     * @param written now, by the wall clock
     */
    public void remove(Note note, Instant written) throws RecordingException {
        change(database -> {
            NoteLog.append(database, at(note, written), true, 0);
            return note;
        });
    }

    /**
     * Takes back the last change of any note that was not taken back yet. Done again and again it goes back to the
     * first.
     *
     * @param written now, by the wall clock
     * @return the note that was changed, as it stands now or stood last; empty when there is nothing to take back
     */
    public Optional<Note> undo(Instant written) throws RecordingException {
        return undo(note -> true, written);
    }

    /** The same for the changes of one note only. */
    public Optional<Note> undo(long id, Instant written) throws RecordingException {
        return undo(note -> note.id() == id, written);
    }

    private Optional<Note> undo(Predicate<Note> which, Instant written) throws RecordingException {
        return change(database -> {
            List<NoteLog.Change> changes = NoteLog.read(database);
            Optional<NoteLog.Change> undone = NoteLog.toUndo(changes, which);
            if (undone.isEmpty()) {
                return Optional.empty();
            }
            Optional<NoteLog.Change> before = NoteLog.before(changes, undone.get());
            NoteLog.Change state = before.orElse(undone.get()); // without one before it was added: undone means gone
            Note note = at(state.note(), written);
            NoteLog.append(
                    database,
                    note,
                    before.isEmpty() || state.removed(),
                    undone.get().number());
            return Optional.of(note);
        });
    }

    /**
     * Does again what was undone last, unless something else was changed since.
     *
     * @param written now, by the wall clock
     * @return the note that was changed; empty when there is nothing to do again
     */
    public Optional<Note> redo(Instant written) throws RecordingException {
        return change(database -> {
            List<NoteLog.Change> changes = NoteLog.read(database);
            Optional<NoteLog.Change> undo = NoteLog.toRedo(changes);
            if (undo.isEmpty()) {
                return Optional.empty();
            }
            long number = undo.get().takesBack();
            NoteLog.Change again = changes.stream()
                    .filter(c -> c.number() == number)
                    .findFirst()
                    .orElseThrow();
            Note note = at(again.note(), written);
            NoteLog.append(database, note, again.removed(), undo.get().number());
            return Optional.of(note);
        });
    }

    private static Note at(Note note, Instant written) {
        return new Note(note.id(), note.fromNanos(), note.toNanos(), note.text(), written);
    }

    /** Reads and writes in one transaction, so that two people at once cannot lose each other's change. */
    private <T> T change(FileAccess.Work<T> work) throws RecordingException {
        try (Database database = Database.forWriting(file, file)) {
            Header.read(database);
            database.execute("BEGIN IMMEDIATE");
            T result = work.on(database);
            database.execute("COMMIT");
            return result;
        }
    }
}
