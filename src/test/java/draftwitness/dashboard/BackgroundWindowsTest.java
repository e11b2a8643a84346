package draftwitness.dashboard;

import static org.assertj.core.api.Assertions.assertThat;

import draftwitness.reading.Step;
import draftwitness.reading.Tap;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import java.util.Queue;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Test;

class BackgroundWindowsTest {
    private static final long SECOND = 1_000_000_000L;
    private final SeriesWindows memory =
            Objects.requireNonNull(FurnaceFeed.usual().played(600).shown()).windows();
    private final Queue<Runnable> tasks = new ArrayDeque<>();
    private final List<ColumnGrid> asked = new ArrayList<>();
    private final List<String> failures = new ArrayList<>();
    private boolean broken;

    private final BackgroundWindows windows = new BackgroundWindows(
            new SeriesWindows() {
                @Override
                public TimeSpan extent() {
                    return memory.extent();
                }

                @Override
                public Columns columns(Tap tap, ColumnGrid grid) {
                    asked.add(grid);
                    if (broken) {
                        throw new UncheckedIOException(new IOException("block 7 is damaged"));
                    }
                    return memory.columns(tap, grid);
                }

                @Override
                public @Nullable Sample readingAt(Tap tap, long nanos) {
                    return memory.readingAt(tap, nanos);
                }

                @Override
                public @Nullable Step step(Tap tap) {
                    return memory.step(tap);
                }
            },
            memory.extent(),
            tasks::add,
            failures::add);

    private static ColumnGrid grid(long from) {
        return new ColumnGrid(from * SECOND, SECOND, 10);
    }

    private void runAll() {
        while (!tasks.isEmpty()) {
            tasks.remove().run();
        }
    }

    @Test
    void givenASlowFile_whenAsked_thenTheAnswerIsThereAtOnceAndTheRightOneLater() {
        Columns first = windows.columns(Tap.DRAFT_SWITCH, grid(0));
        assertThat(first.extremes()).isNull();
        assertThat(asked).isEmpty();
        runAll();
        assertThat(windows.columns(Tap.DRAFT_SWITCH, grid(0)).extremes()).isNotNull();
        assertThat(windows.version()).isPositive();
    }

    @Test
    void givenManyQuestions_whenTheFileIsSlow_thenOnlyTheLastIsAsked() {
        for (int i = 0; i < 50; i++) {
            windows.columns(Tap.DRAFT_SWITCH, grid(i));
        }
        assertThat(tasks).hasSize(1);
        runAll();
        assertThat(asked).containsExactly(grid(49));
        assertThat(windows.columns(Tap.DRAFT_SWITCH, grid(49)).grid()).isEqualTo(grid(49));
    }

    @Test
    void givenTheSameQuestion_whenAnswered_thenItIsNotAskedAgain() {
        for (int i = 0; i < 5; i++) {
            windows.columns(Tap.DRAFT_SWITCH, grid(3));
            windows.readingAt(Tap.DRAFT_SWITCH, 20 * SECOND);
            runAll();
        }
        assertThat(asked).hasSize(1);
        assertThat(windows.readingAt(Tap.DRAFT_SWITCH, 20 * SECOND))
                .isEqualTo(memory.readingAt(Tap.DRAFT_SWITCH, 20 * SECOND));
    }

    @Test
    void givenADamagedFile_whenAsked_thenItIsToldInOneLineAndLaterQuestionsAreAnswered() {
        broken = true;
        windows.columns(Tap.DRAFT_SWITCH, grid(0));
        runAll();
        assertThat(failures).singleElement().asString().contains("block 7 is damaged");
        broken = false;
        windows.columns(Tap.DRAFT_SWITCH, grid(1));
        runAll();
        assertThat(windows.columns(Tap.DRAFT_SWITCH, grid(1)).extremes()).isNotNull();
    }
}
