package draftwitness.app;

import static org.assertj.core.api.Assertions.assertThat;

import draftwitness.capture.CaptureSession;
import draftwitness.dashboard.ColumnGrid;
import draftwitness.dashboard.Columns;
import draftwitness.dashboard.SeriesWindows;
import draftwitness.dashboard.SessionModel;
import draftwitness.dashboard.ShownSession;
import draftwitness.dashboard.TimeSpan;
import draftwitness.reading.Tap;
import draftwitness.recording.RecordingFile;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.TimeUnit;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;

/** What the screen is given of a recording is what it was given live. */
@Timeout(60)
class RecordingWindowsTest {
    private static final long SECOND = 1_000_000_000L;

    @TempDir
    Path folder;

    @Test
    void givenLiveSessionThatWasRecorded_whenTheRecordingIsOpened_thenTheScreenGetsTheSameColumns() throws Exception {
        Path file = folder.resolve("a.dwrec");
        RecordSwitch recorder = new RecordSwitch();
        RecordSwitch.Run run = recorder.start(file);
        SessionModel live = new SessionModel();
        CaptureSession session = Sessions.simulated("demo-house", 3, 400 * SECOND, List.of(recorder, live));
        session.start();
        assertThat(session.awaitEnd(40, TimeUnit.SECONDS)).isTrue();
        assertThat(session.stop()).isTrue();
        assertThat(run.awaitFinished(20, TimeUnit.SECONDS)).isTrue();

        ShownSession shown = live.shown();
        assertThat(shown).isNotNull();
        try (RecordingFile recording = RecordingFile.open(file)) {
            RecordingWindows opened = RecordingWindows.open(recording);
            givesTheSameExtremesAtOnce(opened, shown.windows());
            opened.load(share -> {}, () -> false);
            assertThat(opened.revision()).isEqualTo(1);
            assertThat(opened.extent()).isEqualTo(shown.windows().extent());
            assertThat(opened.sources()).isEqualTo(shown.sources());
            for (Tap tap : List.of(Tap.DRAFT_SWITCH, Tap.GAS_MANIFOLD, Tap.CONTACT_SWITCH)) {
                for (TimeSpan span : List.of(
                        new TimeSpan(0, 400 * SECOND),
                        new TimeSpan(330 * SECOND, 350 * SECOND),
                        new TimeSpan(337 * SECOND, 338 * SECOND))) {
                    ColumnGrid grid = ColumnGrid.covering(span, 300);
                    List<String> expected = told(shown.windows(), tap, grid);
                    assertThat(expected).hasSizeGreaterThan(20);
                    assertThat(told(opened, tap, grid)).as(tap + " " + span).isEqualTo(expected);
                }
                assertThat(opened.readingAt(tap, 200 * SECOND))
                        .isEqualTo(shown.windows().readingAt(tap, 200 * SECOND));
                assertThat(opened.step(tap)).isEqualTo(shown.windows().step(tap));
            }
        }
    }

    private static void givesTheSameExtremesAtOnce(SeriesWindows opened, SeriesWindows live) {
        assertThat(opened.revision()).isZero();
        ColumnGrid grid = ColumnGrid.covering(live.extent(), 300);
        for (Tap tap : List.of(Tap.DRAFT_SWITCH, Tap.GAS_MANIFOLD, Tap.CONTACT_SWITCH)) {
            assertThat(opened.columns(tap, grid).extremes())
                    .isEqualTo(live.columns(tap, grid).extremes());
            assertThat(opened.readingAt(tap, 200 * SECOND)).isEqualTo(live.readingAt(tap, 200 * SECOND));
            assertThat(opened.step(tap)).isEqualTo(live.step(tap));
        }
    }

    /** Every column that holds readings, in words. */
    private static List<String> told(SeriesWindows windows, Tap tap, ColumnGrid grid) {
        Columns c = windows.columns(tap, grid);
        List<String> out = new ArrayList<>();
        for (int i = 0; i < grid.count(); i++) {
            if (c.count(i) > 0) {
                out.add(i + ": " + c.count(i) + " from " + c.min(i) + " to " + c.max(i) + ", " + c.first(i) + " at "
                        + c.firstTime(i) + ", " + c.last(i) + " at " + c.lastTime(i));
            }
        }
        out.add("before " + c.before() + " after " + c.after() + " gaps " + c.gaps());
        return out;
    }
}
