package draftwitness.app;

import draftwitness.dashboard.AnswerBook;
import draftwitness.diagnosis.Answer;
import draftwitness.diagnosis.Check;
import draftwitness.recording.Note;
import draftwitness.recording.Notebook;
import draftwitness.recording.RecordingException;
import draftwitness.time.Ticker;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.Executor;
import java.util.function.Consumer;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * Answers of checks as notes of the recording, each one line that a person can read and that is read back: {@code check
 * two-tap = similar: what was seen}. Written on an executor, one after the other.
 */
public final class NotedAnswers implements AnswerBook {
    private static final Pattern LINE = Pattern.compile("check ([a-z0-9-]+) = ([a-z0-9-]+): (.*)", Pattern.DOTALL);

    private final Path file;
    private final Executor writing;
    private final Ticker clock;
    private final Consumer<String> trouble;
    private volatile List<Answer> kept = List.of();

    /** The answers kept with a recording; {@code trouble} is told one line when they cannot be read or written. */
    NotedAnswers(Path file, Executor writing, Ticker clock, Consumer<String> trouble) {
        this.file = file;
        this.writing = writing;
        this.clock = clock;
        this.trouble = trouble;
        work(this::read);
    }

    private interface Work {
        void run() throws RecordingException;
    }

    private void work(Work work) {
        writing.execute(() -> {
            try {
                work.run();
            } catch (RecordingException e) {
                trouble.accept(String.valueOf(e.getMessage()));
            }
        });
    }

    private void read() throws RecordingException {
        kept = of(file);
    }

    /** The answers that were kept with a recording, so that everything that judges it judges alike. */
    public static List<Answer> of(Path file) throws RecordingException {
        return of(Notebook.of(file).notes());
    }

    /** The answers among notes. */
    static List<Answer> of(List<Note> notes) {
        return notes.stream().flatMap(n -> answer(n).stream()).toList();
    }

    /** The answer that a note is, if it is one that this program knows. */
    static Optional<Answer> answer(Note note) {
        Matcher line = LINE.matcher(note.text());
        if (!line.matches()) {
            return Optional.empty();
        }
        return Check.ofId(line.group(1))
                .flatMap(check -> check.outcome(line.group(2)))
                .map(outcome -> new Answer(line.group(1), outcome.id(), "kept with the recording"));
    }

    @Override
    public List<Answer> kept() {
        return kept;
    }

    @Override
    public void keep(Answer answer) {
        String seen = Check.ofId(answer.check())
                .flatMap(c -> c.outcome(answer.outcome()))
                .map(Check.Outcome::text)
                .orElse("");
        String text = "check " + answer.check() + " = " + answer.outcome() + ": " + seen;
        work(() -> {
            Notebook book = Notebook.of(file);
            Optional<Note> before = noteOf(book, answer.check());
            if (before.isPresent()) {
                Note note = before.get();
                book.change(new Note(note.id(), note.fromNanos(), note.toNanos(), text, clock.wallClock()));
            } else {
                book.add(0, 0, text, clock.wallClock());
            }
        });
    }

    @Override
    public void remove(String check) {
        work(() -> {
            Notebook book = Notebook.of(file);
            Optional<Note> note = noteOf(book, check);
            if (note.isPresent()) {
                book.remove(note.get(), clock.wallClock());
            }
        });
    }

    private static Optional<Note> noteOf(Notebook book, String check) throws RecordingException {
        return book.notes().stream()
                .filter(n -> answer(n).filter(a -> a.check().equals(check)).isPresent())
                .findFirst();
    }
}
