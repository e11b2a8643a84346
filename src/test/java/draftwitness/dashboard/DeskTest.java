package draftwitness.dashboard;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.Test;

class DeskTest {
    private final FakeRecord record = new FakeRecord();
    private final List<String> asked = new ArrayList<>();
    private boolean finishAnswer = true;
    private Optional<Path> fileAnswer = Optional.of(Path.of("old.dwrec"));

    private final DashboardModel model =
            new DashboardModel(ZoneOffset.UTC, Runnable::run, Runnable::run, Settings.defaults(), s -> {});
    private final Desk desk = new Desk(
            model,
            new SessionChooser() {
                @Override
                public void startDemo() {
                    asked.add("demo");
                }

                @Override
                public void openRecording(Path file) {
                    asked.add("open " + file);
                }

                @Override
                public void watch(WatchRequest request) {
                    asked.add("watch");
                }

                @Override
                public List<FoundSource> sources() {
                    return List.of();
                }

                @Override
                public List<RecentRecording> recent() {
                    return List.of();
                }

                @Override
                public void compare(Optional<Path> other) {}

                @Override
                public void testAlarm() {}

                @Override
                public void exportTable(Path target) {
                    asked.add("table " + target);
                }

                @Override
                public void savePicture(String title, ChartFrame frame, Theme theme, Path target) {
                    asked.add("picture " + target);
                }

                @Override
                public void closed() {
                    asked.add("closed");
                }
            },
            new Questions() {
                @Override
                public Optional<Path> recordingToOpen() {
                    return fileAnswer;
                }

                @Override
                public Optional<Path> fileToWrite(String suggestion) {
                    asked.add("write " + suggestion + "?");
                    return Optional.of(Path.of("out", suggestion));
                }

                @Override
                public boolean finishRecording() {
                    asked.add("finish?");
                    return finishAnswer;
                }
            });

    DeskTest() {
        model.showLive("Demo", FurnaceFeed.usual().played(100), record);
    }

    @Test
    void givenALiveSession_whenRecordIsPressed_thenItGoesIntoTheSuggestedFileAndTheStateLineSaysSo() {
        desk.record();
        record.elapsedNanos = 751_000_000_000L;
        record.bytes = 1_234_567;
        assertThat(record.file).isEqualTo(record.suggestedFile());
        Controls controls = model.controls();
        assertThat(controls.state()).isEqualTo("Recording to back-hall-2026-01-17-2210.dwrec, 00:12:31, 1.2 MB");
        assertThat(controls.canRecord()).isFalse();
        assertThat(controls.canStop()).isTrue();
    }

    @Test
    void givenARunningRecording_whenRecordIsPressedAgain_thenNothingIsStartedTwice() {
        desk.record();
        desk.record();
        assertThat(record.starts).isEqualTo(1);
        desk.toggleRecord();
        assertThat(record.stops).isEqualTo(1);
        desk.stop();
        assertThat(record.stops).isEqualTo(1);
    }

    @Test
    void givenARunningRecording_whenTheWindowCloses_thenItIsFinishedBeforeAnythingEnds() {
        desk.record();
        desk.close(() -> asked.add("gone"));
        assertThat(asked).containsExactly("finish?");
        assertThat(record.stops).isEqualTo(1);
        desk.tick();
        assertThat(asked).containsExactly("finish?");
        record.finished();
        desk.tick();
        desk.tick();
        assertThat(asked).containsExactly("finish?", "closed", "gone");
    }

    @Test
    void givenARunningRecording_whenThePersonKeepsIt_thenItGoesOnAndTheWindowStays() {
        finishAnswer = false;
        desk.record();
        desk.close(() -> asked.add("gone"));
        desk.tick();
        assertThat(asked).containsExactly("finish?");
        assertThat(record.state).isEqualTo(RecordControl.State.RECORDING);
    }

    @Test
    void givenARecordingThatFailsWhileBeingFinished_whenClosing_thenTheWindowStaysAndTellsWhy() {
        desk.record();
        desk.close(() -> asked.add("gone"));
        record.state = RecordControl.State.FAILED;
        record.trouble = "The disk is full. Kept up to 14:02:31; free some space and record again.";
        desk.tick();
        assertThat(asked).containsExactly("finish?");
        assertThat(model.controls().banner()).isEqualTo(record.trouble);
    }

    @Test
    void givenNoRecording_whenOpening_thenTheFileIsOpenedAtOnce() {
        desk.open();
        assertThat(asked).containsExactly("open old.dwrec");
        fileAnswer = Optional.empty();
        desk.open();
        assertThat(asked).containsExactly("open old.dwrec");
    }

    @Test
    void givenARunningRecording_whenTheDemoIsAskedFor_thenItStartsAfterTheRecordingIsComplete() {
        desk.record();
        desk.demo();
        record.finished();
        desk.tick();
        assertThat(asked).containsExactly("finish?", "demo");
    }
}
