package draftwitness.dashboard;

import draftwitness.reading.Step;
import draftwitness.reading.Tap;
import java.io.UncheckedIOException;
import java.util.EnumMap;
import java.util.Map;
import java.util.concurrent.Executor;
import java.util.function.Consumer;
import org.jspecify.annotations.Nullable;

/**
 * Windows of a recording that never keep the screen waiting: a question that has not been answered yet gets the answer
 * to an earlier one, and the right one is fetched meanwhile. Questions that have been overtaken are not asked.
 *
 * <p>The user-interface thread asks; the executor's one thread reads. {@link #version} tells when there is news.
 */
final class BackgroundWindows implements SeriesWindows {
    private final SeriesWindows slow;
    private final TimeSpan extent;
    private final Executor executor;
    private final Consumer<String> failed;

    private record Wanted(ColumnGrid grid, long readingAt, long revision) {}

    private record Answer(
            Columns columns,
            @Nullable Sample sample,
            @Nullable Step step) {}

    private final Map<Tap, Wanted> wanted = new EnumMap<>(Tap.class);
    private final Map<Tap, Wanted> answeredFor = new EnumMap<>(Tap.class);
    private final Map<Tap, Answer> answers = new EnumMap<>(Tap.class);
    private boolean running;
    private long version;

    /**
     * Windows over slow ones.
     *
     * @param extent of the slow ones
     * @param executor runs one task after the other
     * @param failed told, on the executor's thread, in one line when reading fails
     */
    BackgroundWindows(SeriesWindows slow, TimeSpan extent, Executor executor, Consumer<String> failed) {
        this.slow = slow;
        this.extent = extent;
        this.executor = executor;
        this.failed = failed;
    }

    @Override
    public TimeSpan extent() {
        return extent;
    }

    @Override
    public synchronized Columns columns(Tap tap, ColumnGrid grid) {
        Wanted before = wanted.get(tap);
        want(tap, new Wanted(grid, before == null ? extent.fromNanos() : before.readingAt(), slow.revision()));
        Answer answer = answers.get(tap);
        return answer == null ? Columns.empty(grid) : answer.columns();
    }

    @Override
    public synchronized @Nullable Sample readingAt(Tap tap, long nanos) {
        Wanted before = wanted.get(tap);
        ColumnGrid grid = before == null ? ColumnGrid.covering(extent, 1) : before.grid();
        want(tap, new Wanted(grid, nanos, slow.revision()));
        Answer answer = answers.get(tap);
        return answer == null ? null : answer.sample();
    }

    @Override
    public synchronized @Nullable Step step(Tap tap) {
        Answer answer = answers.get(tap);
        return answer == null ? null : answer.step();
    }

    /** Rises with every answer. */
    synchronized long version() {
        return version;
    }

    private void want(Tap tap, Wanted now) {
        wanted.put(tap, now);
        if (!running && !now.equals(answeredFor.get(tap))) {
            running = true;
            executor.execute(this::answerAll);
        }
    }

    private void answerAll() {
        Tap tap = nextOpen();
        while (tap != null) {
            Wanted question = question(tap);
            try {
                Answer answer = new Answer(
                        slow.columns(tap, question.grid()), slow.readingAt(tap, question.readingAt()), slow.step(tap));
                put(tap, question, answer);
            } catch (UncheckedIOException e) {
                put(tap, question, new Answer(Columns.empty(question.grid()), null, null));
                failed.accept(Words.get("error.reading", String.valueOf(e.getMessage())));
            }
            tap = nextOpen();
        }
    }

    private synchronized Wanted question(Tap tap) {
        Wanted question = wanted.get(tap);
        if (question == null) {
            throw new IllegalStateException("nothing asked of " + tap.role());
        }
        return question;
    }

    private synchronized void put(Tap tap, Wanted question, Answer answer) {
        answeredFor.put(tap, question);
        answers.put(tap, answer);
        version++;
    }

    private synchronized @Nullable Tap nextOpen() {
        for (Map.Entry<Tap, Wanted> entry : wanted.entrySet()) {
            if (!entry.getValue().equals(answeredFor.get(entry.getKey()))) {
                return entry.getKey();
            }
        }
        running = false;
        return null;
    }
}
