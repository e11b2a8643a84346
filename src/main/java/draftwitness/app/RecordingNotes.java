package draftwitness.app;

import draftwitness.dashboard.NoteMark;
import draftwitness.dashboard.NoteStore;
import draftwitness.recording.Note;
import draftwitness.recording.Notebook;
import draftwitness.recording.RecordingException;
import draftwitness.time.Ticker;
import java.nio.file.Path;
import java.util.ArrayDeque;
import java.util.Deque;
import java.util.List;
import java.util.concurrent.Executor;
import java.util.function.Consumer;

/** The notes of an opened recording: every change goes into its file at once, on the given executor, in order. */
final class RecordingNotes implements NoteStore {
    private final Path file;
    private final Ticker clock;
    private final Executor background;
    private final Consumer<String> failed;
    private volatile List<NoteMark> known = List.of();
    private volatile boolean undoable;
    private final Deque<Long> changed = new ArrayDeque<>(); // the background's own

    /**
     * Notes of a recording; they are read in the background.
     *
     * @param failed told on the executor's thread, in one line, when the file cannot be read or written
     */
    RecordingNotes(Path file, Ticker clock, Executor background, Consumer<String> failed) {
        this.file = file;
        this.clock = clock;
        this.background = background;
        this.failed = failed;
        then(book -> {});
    }

    private interface Change {
        void make(Notebook book) throws RecordingException;
    }

    private void then(Change change) {
        background.execute(() -> {
            try {
                Notebook book = Notebook.of(file);
                change.make(book);
                known = book.notes().stream().map(RecordingNotes::mark).toList();
            } catch (RecordingException e) {
                failed.accept(String.valueOf(e.getMessage()));
            }
            undoable = !changed.isEmpty();
        });
    }

    private static NoteMark mark(Note note) {
        return new NoteMark(note.id(), note.fromNanos(), note.toNanos(), note.text());
    }

    private Note note(NoteMark mark) {
        return new Note(mark.id(), mark.fromNanos(), mark.toNanos(), mark.text(), clock.wallClock());
    }

    @Override
    public List<NoteMark> notes() {
        return known;
    }

    @Override
    public void add(long nanos, String text) {
        then(book ->
                changed.push(book.add(nanos, nanos, text, clock.wallClock()).id()));
    }

    @Override
    public void change(NoteMark mark) {
        then(book -> {
            book.change(note(mark));
            changed.push(mark.id());
        });
    }

    @Override
    public void remove(NoteMark mark) {
        then(book -> {
            book.remove(note(mark), clock.wallClock());
            changed.push(mark.id());
        });
    }

    @Override
    public void undo() {
        then(book -> {
            Long last = changed.peek();
            if (last != null) {
                book.undo(last, clock.wallClock());
                changed.pop();
            }
        });
    }

    @Override
    public boolean canUndo() {
        return undoable;
    }
}
