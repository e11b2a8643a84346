package draftwitness.app;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import draftwitness.capture.CaptureSession;
import draftwitness.cycle.CycleReport;
import draftwitness.cycle.LiveReport;
import draftwitness.dashboard.ComparedCycle;
import draftwitness.dashboard.NoteMark;
import draftwitness.dashboard.Work;
import draftwitness.recording.Note;
import draftwitness.recording.Notebook;
import draftwitness.time.Ticker;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.CancellationException;
import java.util.concurrent.TimeUnit;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;

/** What the window does with whole recordings behind it: comparing cycles, keeping notes. */
@Timeout(60)
class ComparisonsTest {
    private static final long SECOND = 1_000_000_000L;

    @TempDir
    Path folder;

    private final List<String> told = new ArrayList<>();

    /** Records the demo house; returns what the analysis of the live session found. */
    private CycleReport record(Path file, long seconds) throws Exception {
        RecordSwitch recorder = new RecordSwitch();
        RecordSwitch.Run run = recorder.start(file);
        LiveReport report = new LiveReport(Sessions.setupOf(Sessions.demo()));
        CaptureSession session = Sessions.simulated("demo-house", 3, seconds * SECOND, List.of(recorder, report));
        session.start();
        assertThat(session.awaitEnd(40, TimeUnit.SECONDS)).isTrue();
        assertThat(session.stop()).isTrue();
        assertThat(run.awaitFinished(20, TimeUnit.SECONDS)).isTrue();
        return report.snapshot().report();
    }

    @Test
    void givenARecording_whenItsCyclesAreFound_thenTheyAreThoseOfTheLiveSessionWithTheirDraft() throws Exception {
        Path file = folder.resolve("a.dwrec");
        CycleReport live = record(file, 400);
        try (Work.Job job = new Work().begin("comparing")) {
            List<ComparedCycle> found = Comparisons.cycles(file, job, 0, 1);
            assertThat(found).isNotEmpty();
            assertThat(found).extracting(ComparedCycle::cycle).isEqualTo(live.cycles());
            double[] extremes = found.get(0).draft().extremes();
            assertThat(extremes).isNotNull();
            assertThat(extremes[0]).isLessThan(-200);
            job.cancel();
            assertThatThrownBy(() -> Comparisons.cycles(file, job, 0, 1)).isInstanceOf(CancellationException.class);
        }
    }

    @Test
    void givenNotesOnARecording_whenAddedChangedRemovedAndUndone_thenTheFileHasThemAtOnce() throws Exception {
        Path file = folder.resolve("n.dwrec");
        record(file, 20);
        RecordingNotes notes = new RecordingNotes(file, Ticker.system(), Runnable::run, told::add);
        notes.add(5 * SECOND, "tube pinched");
        notes.change(new NoteMark(1, 5 * SECOND, 5 * SECOND, "tube pinched here"));
        assertThat(Notebook.of(file).notes()).extracting(Note::text).containsExactly("tube pinched here");
        notes.remove(notes.notes().get(0));
        assertThat(notes.notes()).isEmpty();
        notes.undo();
        assertThat(notes.notes()).extracting(NoteMark::text).containsExactly("tube pinched here");
        assertThat(told).isEmpty();
    }

    @Test
    void givenNotesOfALiveSession_whenARecordingBegins_thenItHasThoseMadeBeforeAsWell() throws Exception {
        Path file = folder.resolve("l.dwrec");
        List<Path> recorded = new ArrayList<>();
        LiveNotes notes = new LiveNotes(() -> recorded.stream().findFirst(), Ticker.system(), Runnable::run, told::add);
        notes.add(3 * SECOND, "before it was recorded");
        record(file, 20);
        recorded.add(file);
        notes.save();
        notes.add(9 * SECOND, "while it was");
        notes.change(new NoteMark(1, 3 * SECOND, 3 * SECOND, "before"));
        assertThat(Notebook.of(file).notes()).extracting(Note::text).containsExactly("before", "while it was");
        notes.undo();
        assertThat(Notebook.of(file).notes())
                .extracting(Note::text)
                .containsExactly("before it was recorded", "while it was");
    }

    @Test
    void givenNotesThatNoRecordingTook_whenTheSessionIsLeft_thenTheyAreInATextFile() throws Exception {
        LiveNotes notes = new LiveNotes(Optional::empty, Ticker.system(), Runnable::run, told::add);
        notes.add(3 * SECOND, "smelled exhaust");
        notes.leave(folder);
        try (Stream<Path> files = Files.list(folder)) {
            Path file = files.findFirst().orElseThrow();
            assertThat(Files.readString(file)).contains("3.0, smelled exhaust");
            assertThat(told).singleElement().asString().contains(file.toString());
        }
    }
}
