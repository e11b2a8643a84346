package draftwitness.app;

import draftwitness.dashboard.NoteMark;
import draftwitness.dashboard.NoteStore;
import draftwitness.recording.Note;
import draftwitness.recording.Notebook;
import draftwitness.recording.RecordingException;
import draftwitness.time.Ticker;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.util.ArrayDeque;
import java.util.Comparator;
import java.util.Deque;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.Executor;
import java.util.function.Consumer;
import java.util.function.Supplier;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;

/**
 * The notes of a live session. They are in memory from the start, and go into the recording as soon as there is one:
 * those made before it as well. What no recording took is written beside the recordings as text when the session is
 * left. Commands on the user-interface thread, files on the given executor.
 */
final class LiveNotes implements NoteStore {
    private final Supplier<Optional<Path>> recording;
    private final Ticker clock;
    private final Executor background;
    private final Consumer<String> failed;
    private final Deque<List<NoteMark>> before = new ArrayDeque<>();
    private volatile List<NoteMark> notes = List.of();
    private long nextId = 1;
    // The background's own:
    private final Map<Long, Note> written = new HashMap<>();
    private @Nullable Path writtenTo;

    /**
     * Notes of a session that begins.
     *
     * @param recording the file of the running or latest recording, empty before the first; any thread
     */
    LiveNotes(Supplier<Optional<Path>> recording, Ticker clock, Executor background, Consumer<String> failed) {
        this.recording = recording;
        this.clock = clock;
        this.background = background;
        this.failed = failed;
    }

    @Override
    public List<NoteMark> notes() {
        return notes;
    }

    @Override
    public void add(long nanos, String text) {
        NoteMark note = new NoteMark(nextId++, nanos, nanos, text);
        become(Stream.concat(notes.stream(), Stream.of(note)));
    }

    @Override
    public void change(NoteMark note) {
        become(notes.stream().map(n -> n.id() == note.id() ? note : n));
    }

    @Override
    public void remove(NoteMark note) {
        become(notes.stream().filter(n -> n.id() != note.id()));
    }

    private void become(Stream<NoteMark> next) {
        before.push(notes);
        notes = sorted(next);
        save();
    }

    private static List<NoteMark> sorted(Stream<NoteMark> notes) {
        return notes.sorted(Comparator.comparingLong(NoteMark::fromNanos).thenComparingLong(NoteMark::id))
                .toList();
    }

    @Override
    public void undo() {
        if (canUndo()) {
            notes = before.pop();
            save();
        }
    }

    @Override
    public boolean canUndo() {
        return !before.isEmpty();
    }

    /** Brings the recording up to the notes, if there is one; to be called when a recording has begun, too. */
    void save() {
        background.execute(this::saveNow);
    }

    /** The session is left: what no recording took is written as text into a folder. The background's thread. */
    void leave(Path folder) {
        saveNow();
        List<NoteMark> left = notes;
        if (left.isEmpty() || writtenTo != null) {
            return;
        }
        Path file = folder.resolve("notes-" + clock.wallClock().getEpochSecond() + ".txt");
        StringBuilder text = new StringBuilder("seconds from the session's start, note\n");
        left.forEach(n ->
                text.append(n.fromNanos() / 1e9).append(", ").append(n.text()).append('\n'));
        try {
            Files.createDirectories(folder);
            Files.writeString(file, text, StandardOpenOption.CREATE_NEW);
            failed.accept("The notes were made without a recording; they are kept in " + file + ".");
        } catch (IOException e) {
            failed.accept(file + ": the notes cannot be kept there (" + e.getMessage() + ")");
        }
    }

    private void saveNow() {
        Optional<Path> file = recording.get().filter(Files::exists);
        if (file.isEmpty()) {
            return;
        }
        if (!file.get().equals(writtenTo)) {
            written.clear();
        }
        try {
            write(Notebook.of(file.get()), notes);
            writtenTo = file.get();
        } catch (RecordingException e) {
            failed.accept(String.valueOf(e.getMessage()));
        }
    }

    private void write(Notebook book, List<NoteMark> now) throws RecordingException {
        for (Map.Entry<Long, Note> each : List.copyOf(written.entrySet())) {
            if (now.stream().noneMatch(n -> n.id() == each.getKey())) {
                book.remove(each.getValue(), clock.wallClock());
                written.remove(each.getKey());
            }
        }
        for (NoteMark mark : now) {
            Note there = written.get(mark.id());
            if (there == null) {
                written.put(mark.id(), book.add(mark.fromNanos(), mark.toNanos(), mark.text(), clock.wallClock()));
            } else if (!there.text().equals(mark.text())) {
                Note changed = new Note(there.id(), there.fromNanos(), there.toNanos(), mark.text(), clock.wallClock());
                book.change(changed);
                written.put(mark.id(), changed);
            }
        }
    }
}
