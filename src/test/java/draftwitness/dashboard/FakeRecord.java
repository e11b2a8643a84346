package draftwitness.dashboard;

import java.nio.file.Path;
import org.jspecify.annotations.Nullable;

/** A recording control for tests: goes where the test puts it. */
public final class FakeRecord implements RecordControl {
    public State state = State.IDLE;
    public @Nullable Path file;
    public long elapsedNanos;
    public long bytes;
    public String trouble = "";
    public int starts;
    public int stops;

    @Override
    public Path suggestedFile() {
        return Path.of("back-hall-2026-01-17-2210.dwrec");
    }

    @Override
    public void start(Path newFile) {
        starts++;
        file = newFile;
        state = State.RECORDING;
    }

    @Override
    public void stop() {
        stops++;
        state = State.STOPPING;
    }

    /** The file is complete. */
    public void finished() {
        state = State.IDLE;
    }

    @Override
    public Status status() {
        return new Status(state, file, elapsedNanos, bytes, trouble);
    }
}
