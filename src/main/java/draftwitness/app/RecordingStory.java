package draftwitness.app;

import draftwitness.cycle.LiveReport;
import draftwitness.cycle.LiveSnapshot;
import draftwitness.dashboard.Story;
import draftwitness.recording.RecordingException;
import draftwitness.recording.RecordingFile;
import draftwitness.setup.Setup;
import java.nio.file.Path;
import java.util.concurrent.CancellationException;

/**
 * What the furnace did in an opened recording: known some time after it is on screen. Read by one background thread,
 * asked by any.
 */
final class RecordingStory implements Story {
    private final Path file;
    private volatile LiveSnapshot known = new LiveReport(Setup.defaults()).snapshot();
    private volatile boolean unwanted;

    RecordingStory(Path file) {
        this.file = file;
    }

    @Override
    public LiveSnapshot snapshot() {
        return known;
    }

    /** Nobody looks any more; reading ends at the next slice. */
    void cancel() {
        unwanted = true;
    }

    /**
     * Reads the recording through, with its own setup (or defaults when that cannot be read).
     *
     * @throws RecordingException if part of it cannot be read; then nothing is told
     */
    void read() throws RecordingException {
        if (unwanted) {
            return;
        }
        try (RecordingFile recording = RecordingFile.open(file)) {
            Judged judged =
                    Judged.of(recording, KeptSetup.orDefaults(recording), recording.zeros(), nanos -> !unwanted);
            if (!unwanted) {
                LiveSnapshot nothing = known;
                known = new LiveSnapshot(1, judged.cycles(), 0, nothing.now(), true);
            }
        } catch (CancellationException e) {
            return; // nobody looks any more
        }
    }
}
