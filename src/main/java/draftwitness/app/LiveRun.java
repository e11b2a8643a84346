package draftwitness.app;

import draftwitness.capture.CaptureSession;
import draftwitness.capture.SourceHealth;
import draftwitness.input.ByteSizes;
import draftwitness.reading.SourceState;
import java.io.OutputStream;
import java.io.PrintStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.List;
import java.util.concurrent.TimeUnit;
import org.jspecify.annotations.Nullable;

/**
 * Runs a live session in the foreground until it ends, a given session time has passed, recording fails, or it is asked
 * to stop; then stops it in good order. Used by the commands that have no window.
 */
public final class LiveRun {
    private static final long LOOK_MILLIS = 50;
    private static final String STALLED =
            "what had arrived was not taken in time; the disk, or whatever else listens, is too slow";

    private LiveRun() {}

    /**
     * How a run ended.
     *
     * @param lost sources that were away at the end
     * @param recordingFailure what ended the recording early, or null
     */
    public record Outcome(
            List<SourceHealth> health,
            List<SourceHealth> lost,
            @Nullable Exception recordingFailure) {}

    /** The same for sources that cannot misbehave: nothing is told meanwhile. */
    public static Outcome run(CaptureSession session, StopSignal stop, RecordSwitch.@Nullable Run recording)
            throws InterruptedException {
        PrintStream nowhere = new PrintStream(OutputStream.nullOutputStream(), false, StandardCharsets.UTF_8);
        return run(session, stop, recording, new HealthReporter(nowhere));
    }

    /**
     * Runs a started session to its end.
     *
     * @param recording the recording that must go well, or null
     * @param reporter told the sources' figures all along
     */
    public static Outcome run(
            CaptureSession session, StopSignal stop, RecordSwitch.@Nullable Run recording, HealthReporter reporter)
            throws InterruptedException {
        boolean ended;
        try {
            while ((recording == null || recording.failure() == null) && !session.awaitEnd(1, TimeUnit.MILLISECONDS)) {
                reporter.look(session.handedOnNanos(), session.health());
                if (stop.await(LOOK_MILLIS, TimeUnit.MILLISECONDS)) {
                    break;
                }
            }
        } finally {
            ended = session.stop();
        }
        String trouble = session.failure();
        if (!ended || trouble != null) {
            return outcome(session, new IllegalStateException(trouble == null ? STALLED : trouble));
        }
        if (recording != null && !recording.awaitFinished(30, TimeUnit.SECONDS)) {
            return outcome(
                    session, new IllegalStateException(recording.file() + ": the disk did not take it all in time"));
        }
        return outcome(session, recording == null ? null : recording.failure());
    }

    private static Outcome outcome(CaptureSession session, @Nullable Exception failure) {
        List<SourceHealth> health = session.health();
        return new Outcome(
                health,
                health.stream()
                        .filter(h -> h.state() == SourceState.GONE || h.state() == SourceState.RETRYING)
                        .toList(),
                failure);
    }

    /** A file's size for people. */
    public static String size(Path file) {
        return ByteSizes.text(file.toFile().length());
    }
}
