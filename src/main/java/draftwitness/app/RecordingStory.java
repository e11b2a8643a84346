package draftwitness.app;

import draftwitness.cycle.CycleAnalyzer;
import draftwitness.cycle.LiveReport;
import draftwitness.cycle.LiveSnapshot;
import draftwitness.dashboard.Story;
import draftwitness.input.InputException;
import draftwitness.reading.Slice;
import draftwitness.reading.Zeros;
import draftwitness.recording.RecordingException;
import draftwitness.recording.RecordingFile;
import draftwitness.setup.Setup;
import java.nio.file.Path;

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
            CycleAnalyzer analyzer = new CycleAnalyzer(setup(recording));
            analyzer.begin(recording.header());
            Zeros zeros = recording.zeros();
            recording.forEachSlice(Long.MIN_VALUE, Long.MAX_VALUE, slice -> take(analyzer, zeros.zeroed(slice)));
            analyzer.end();
            if (!unwanted) {
                LiveSnapshot nothing = known;
                known = new LiveSnapshot(1, analyzer.report(), 0, nothing.now(), true);
            }
        } catch (Unwanted e) {
            return; // nobody looks any more
        }
    }

    private void take(CycleAnalyzer analyzer, Slice slice) {
        if (unwanted) {
            throw new Unwanted();
        }
        analyzer.slice(slice);
    }

    private static Setup setup(RecordingFile recording) {
        try {
            return Setup.parse("setup", recording.header().setupToml());
        } catch (InputException e) {
            return Setup.defaults(); // the screen says so already
        }
    }

    /** Ends reading from within. */
    private static final class Unwanted extends RuntimeException {
        private static final long serialVersionUID = 1;
    }
}
