package draftwitness.app.cli;

import draftwitness.input.Durations;
import draftwitness.input.InputException;
import draftwitness.recording.Note;
import draftwitness.recording.Notebook;
import draftwitness.recording.RecordingException;
import draftwitness.time.Ticker;
import java.nio.file.Path;
import java.time.Instant;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.Callable;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

/** {@code notes}: remarks and bookmarks of a recording. */
@Command(
        name = "notes",
        mixinStandardHelpOptions = true,
        description =
                "Lists a recording's notes and bookmarks, or changes one. Readings are never touched, and every change"
                        + " can be undone step by step. Times count from the session's start, as 'verify' tells them.")
final class NotesCommand implements Callable<Integer> {
    private final Console console;

    @Parameters(paramLabel = "FILE", description = "The recording (.dwrec).")
    @SuppressWarnings("NullAway.Init") // required: set before call()
    private Path file;

    @Option(names = "--add", paramLabel = "TEXT", description = "Adds a note; an empty text is a bookmark. Needs --at.")
    private @Nullable String add;

    @Option(
            names = "--change",
            paramLabel = "N",
            description = "Changes note N: its --text, its --at and --to, or all.")
    private @Nullable Long change;

    @Option(names = "--text", paramLabel = "TEXT", description = "With --change: what it is to say.")
    private @Nullable String text;

    @Option(names = "--at", paramLabel = "TIME", description = "What time it is about, such as 7:40 or 460 (seconds).")
    private @Nullable String at;

    @Option(names = "--to", paramLabel = "TIME", description = "End of the span that it is about; a moment without it.")
    private @Nullable String to;

    @Option(names = "--remove", paramLabel = "N", description = "Removes note N.")
    private @Nullable Long remove;

    @Option(names = "--undo", description = "Takes back the last change; again and again back to the first.")
    private boolean undo;

    @Option(names = "--redo", description = "Does again what was undone last.")
    private boolean redo;

    NotesCommand(Console console) {
        this.console = console;
    }

    @Override
    public Integer call() throws Exception {
        long wishes = Stream.of(add != null, change != null, remove != null, undo, redo)
                .filter(w -> w)
                .count();
        if (wishes > 1) {
            throw new InputException("--add, --change, --remove, --undo and --redo go one at a time");
        }
        try {
            Notebook book = Notebook.of(file);
            if (wishes == 1) {
                change(book, Ticker.system().wallClock());
            }
            list(book.notes());
            return 0;
        } catch (RecordingException e) {
            throw RecordingErrors.whenReading(e);
        }
    }

    private void change(Notebook book, Instant now) throws RecordingException, InputException {
        if (add != null) {
            if (at == null) {
                throw new InputException("--add needs --at TIME: what time the note is about");
            }
            long from = Durations.parseMomentNanos(at);
            book.add(from, endOf(from), add, now);
        } else if (change != null) {
            change(book, find(book, change), now);
        } else if (remove != null) {
            book.remove(find(book, remove), now);
        } else {
            Optional<Note> changed = undo ? book.undo(now) : book.redo(now);
            if (changed.isEmpty()) {
                console.err().println("nothing to " + (undo ? "undo" : "redo"));
            }
        }
    }

    private void change(Notebook book, Note note, Instant now) throws RecordingException, InputException {
        if (text == null && at == null && to == null) {
            throw new InputException("--change needs --text, --at or --to");
        }
        long from = at == null ? note.fromNanos() : Durations.parseMomentNanos(at);
        long end = at == null && to == null ? note.toNanos() : endOf(from);
        book.change(new Note(note.id(), from, end, text == null ? note.text() : text, now));
    }

    private long endOf(long from) throws InputException {
        long end = to == null ? from : Durations.parseMomentNanos(to);
        if (end < from) {
            throw new InputException("--to " + to + " is before --at");
        }
        return end;
    }

    private Note find(Notebook book, long number) throws RecordingException, InputException {
        return book.notes().stream()
                .filter(n -> n.id() == number)
                .findFirst()
                .orElseThrow(() ->
                        new InputException(file + " has no note " + number + "; 'notes " + file + "' lists them"));
    }

    private void list(List<Note> notes) {
        for (Note note : notes) {
            String span = Durations.clock(note.fromNanos())
                    + (note.toNanos() > note.fromNanos() ? " to " + Durations.clock(note.toNanos()) : "");
            console.out()
                    .println(note.id() + "  " + span + "  " + (note.text().isEmpty() ? "(bookmark)" : note.text()));
        }
        if (notes.isEmpty()) {
            console.err().println(file + " has no notes");
        }
    }
}
