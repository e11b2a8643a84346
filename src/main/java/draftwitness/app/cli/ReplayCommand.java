package draftwitness.app.cli;

import draftwitness.app.DashboardProgram;
import draftwitness.app.Display;
import draftwitness.app.StopSignal;
import draftwitness.app.TextReporter;
import draftwitness.input.Durations;
import draftwitness.input.InputException;
import draftwitness.recording.RecordingException;
import draftwitness.recording.RecordingFile;
import draftwitness.replay.Replayer;
import draftwitness.time.Ticker;
import java.nio.file.Path;
import java.util.List;
import java.util.concurrent.Callable;
import java.util.concurrent.TimeUnit;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

/** {@code replay}: a recording on the dashboard, or as text. */
@Command(
        name = "replay",
        mixinStandardHelpOptions = true,
        description = "Plays a recording on the dashboard; as text with --text or without a display.")
final class ReplayCommand implements Callable<Integer> {
    private static final long LINE_NANOS = 1_000_000_000L;

    private final Console console;

    @Parameters(paramLabel = "FILE", description = "The recording (.dwrec).")
    @SuppressWarnings("NullAway.Init") // required: set before call()
    private Path file;

    @Option(names = "--speed", paramLabel = "N", description = "Times real time; 1 by default.")
    private double speed = 1;

    @Option(
            names = "--from",
            paramLabel = "TIME",
            description = "With --text: where to begin, such as 8m, 7:40 or 460 (seconds).")
    private @Nullable String from;

    @Option(names = "--text", description = "Lines of text instead of a window.")
    private boolean text;

    ReplayCommand(Console console) {
        this.console = console;
    }

    @Override
    public Integer call() throws Exception {
        if (!(speed > 0)) {
            throw new InputException("--speed " + speed + " is not above 0");
        }
        try (RecordingFile recording = RecordingFile.open(file)) {
            ThinnedWords.tell(recording, console.err());
            if (text || !Display.available()) {
                return tell(recording);
            }
        } catch (RecordingException e) {
            throw RecordingErrors.whenReading(e);
        }
        DashboardProgram.onRecording(file, speed, console.stop());
        return 0;
    }

    private int tell(RecordingFile recording) throws Exception {
        TextReporter reporter = new TextReporter(console.out(), LINE_NANOS);
        StopSignal stop = console.stop();
        stop.attend();
        try (Replayer replayer = new Replayer(recording, Ticker.system(), List.of(reporter))) {
            replayer.speed(speed);
            if (from != null) {
                replayer.seek(Durations.parseMomentNanos(from));
            }
            replayer.start();
            replayer.play();
            while (!replayer.awaitEnd(50, TimeUnit.MILLISECONDS)) {
                if (stop.await(0, TimeUnit.MILLISECONDS)) {
                    break;
                }
            }
            String trouble = replayer.trouble();
            if (trouble != null) {
                throw new WorkFailedException(trouble);
            }
            return 0;
        }
    }
}
