package draftwitness.app;

import draftwitness.dashboard.GuidedModel;
import draftwitness.dashboard.Words;
import draftwitness.diagnosis.guided.GuidedResult;
import draftwitness.diagnosis.guided.GuidedText;
import draftwitness.recording.Notebook;
import draftwitness.recording.RecordingException;
import draftwitness.time.Ticker;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayDeque;
import java.util.Queue;
import java.util.concurrent.Executor;
import java.util.function.Consumer;
import java.util.function.Supplier;
import org.jspecify.annotations.Nullable;

/**
 * Keeps results of guided measurements as notes of the recording. A result of a session that is not recorded waits for a
 * recording: it goes in with the next result, or at the session's end. Any thread.
 */
final class GuidedNotes implements GuidedModel.Keeper {
    private final Supplier<@Nullable Path> file;
    private final Executor writing;
    private final Queue<Waiting> waiting = new ArrayDeque<>();

    private record Waiting(GuidedResult result, Consumer<String> told) {}

    /**
     * Keeps results in a recording.
     *
     * @param file the recording, null while there is none
     * @param writing writes one after the other
     */
    GuidedNotes(Supplier<@Nullable Path> file, Executor writing) {
        this.file = file;
        this.writing = writing;
    }

    @Override
    public void keep(GuidedResult result, Consumer<String> told) {
        synchronized (this) {
            waiting.add(new Waiting(result, told));
        }
        writing.execute(this::flush);
    }

    /** Writes what waits, if there is a recording now. */
    synchronized void flush() {
        Path into = file.get();
        if (into == null || !Files.exists(into)) {
            waiting.forEach(w -> w.told().accept(Words.get("guided.kept.waiting")));
            return;
        }
        for (Waiting w = waiting.peek(); w != null; w = waiting.peek()) {
            try {
                write(into, w.result());
                w.told().accept(Words.get("guided.kept"));
                waiting.remove();
            } catch (RecordingException e) {
                w.told().accept(Words.get("guided.kept.failed", String.valueOf(e.getMessage())));
                return; // it waits for another try
            }
        }
    }

    private static void write(Path into, GuidedResult result) throws RecordingException {
        long from = Long.MAX_VALUE;
        long to = Long.MIN_VALUE;
        for (GuidedResult.Span span : result.spans()) {
            from = Math.min(from, span.fromNanos());
            to = Math.max(to, span.toNanos());
        }
        Notebook.of(into)
                .add(from, Math.max(from, to), GuidedText.of(result), Ticker.system().wallClock());
    }
}
