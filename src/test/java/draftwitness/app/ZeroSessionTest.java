package draftwitness.app;

import static org.assertj.core.api.Assertions.assertThat;

import draftwitness.capture.CaptureSession;
import draftwitness.driver.DriverCatalog;
import draftwitness.reading.Tap;
import draftwitness.reading.ZeroOffset;
import draftwitness.reading.Zeros;
import draftwitness.recording.RecordingFile;
import draftwitness.setup.Setup;
import draftwitness.testkit.Peers;
import draftwitness.testkit.Pty;
import java.nio.file.Path;
import java.util.List;
import java.util.concurrent.TimeUnit;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;

class ZeroSessionTest {
    private final StopSignal stop = new StopSignal();

    @AfterEach
    void nothingWaitsForTheSignal() {
        stop.finished(0);
        stop.close();
    }

    @TempDir
    Path folder;

    @Test
    @Timeout(60)
    void givenZeroGivenToALiveSession_whenItsRecordingIsRead_thenItIsThere_andReadingsAreAsTheyCame() throws Exception {
        Peers.needPty();
        Path file = folder.resolve("zero.dwrec");
        ZeroOffset zero = new ZeroOffset(Tap.DRAFT_SWITCH, -1.25, 1000, 0.125, 0.0625, 250);
        RecordSwitch recorder = new RecordSwitch();
        RecordSwitch.Run run = recorder.start(file);
        try (Pty pty = new Pty()) {
            CaptureSession session = Sessions.live(
                    new SourcePlanner(DriverCatalog.shipped())
                            .plan(List.of("draft.switch=ascii-line@serial:" + pty.path()), List.of()),
                    Setup.defaults(),
                    stop,
                    List.of(recorder));
            session.start();
            pty.send("\n-5.25\n");
            while (session.health().get(0).readings() < 1) {
                assertThat(session.awaitEnd(20, TimeUnit.MILLISECONDS)).isFalse();
            }
            assertThat(session.zero(zero)).isTrue();
            assertThat(session.zero(ZeroOffset.none(Tap.GAS_INLET, 0))).isFalse(); // nothing is on that tap
            session.stop();
        }
        assertThat(run.awaitFinished(30, TimeUnit.SECONDS)).isTrue();
        Zeros zeros = new Zeros();
        try (RecordingFile recording = RecordingFile.open(file)) {
            assertThat(recording.events()).anyMatch(e -> ZeroOffset.in(e).equals(java.util.Optional.of(zero)));
            recording.forEachSlice(Long.MIN_VALUE, Long.MAX_VALUE, slice -> {
                zeros.slice(slice);
                slice.blocks().forEach(b -> assertThat(b.value(0)).isEqualTo(-5.25));
            });
        }
        assertThat(zeros.pascals(Tap.DRAFT_SWITCH)).isEqualTo(-1.25);
    }
}
