package draftwitness.app;

import draftwitness.dashboard.RecordControl;
import draftwitness.time.Ticker;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDateTime;
import java.time.ZoneId;
import java.time.format.DateTimeFormatter;
import java.util.Locale;
import java.util.Optional;
import java.util.concurrent.Executor;
import java.util.concurrent.TimeUnit;
import java.util.function.BooleanSupplier;
import org.jspecify.annotations.Nullable;

/**
 * Recording a live session from the window. Commands on the user-interface thread; slow parts on the given executor.
 */
final class LiveRecordControl implements RecordControl {
    private static final DateTimeFormatter NAME = DateTimeFormatter.ofPattern("'draft-'yyyy-MM-dd-HHmmss", Locale.ROOT);

    private final RecordSwitch recorder;
    private final BooleanSupplier sessionEnded;
    private final Path folder;
    private final Ticker clock;
    private final Executor background;
    private volatile RecordSwitch.@Nullable Run run;
    private RecordSwitch.@Nullable Run toldOf; // the user interface's own
    private volatile boolean stopping;
    private volatile boolean finished;
    private volatile String refused = "";
    private volatile Runnable onFile = () -> {};

    /**
     * A control for one session.
     *
     * @param sessionEnded true once nothing follows
     * @param folder where new recordings go; made when it is needed
     */
    LiveRecordControl(
            RecordSwitch recorder, BooleanSupplier sessionEnded, Path folder, Ticker clock, Executor background) {
        this.recorder = recorder;
        this.sessionEnded = sessionEnded;
        this.folder = folder;
        this.clock = clock;
        this.background = background;
    }

    @Override
    public Path suggestedFile() {
        String name = NAME.format(LocalDateTime.ofInstant(clock.wallClock(), ZoneId.systemDefault()));
        Path file = folder.resolve(name + ".dwrec");
        for (int i = 2; Files.exists(file); i++) {
            file = folder.resolve(name + "-" + i + ".dwrec");
        }
        return file;
    }

    @Override
    public void start(Path file) {
        refused = "";
        if (sessionEnded.getAsBoolean()) {
            refused = "The session has come to its end; there is nothing more to record.";
            return;
        }
        Path parent = file.toAbsolutePath().getParent();
        try {
            if (parent != null) {
                Files.createDirectories(parent);
            }
        } catch (IOException e) {
            refused = parent + ": this folder cannot be made (" + e.getMessage() + "). Nothing is being recorded.";
            return;
        }
        stopping = false;
        finished = false;
        run = recorder.start(file);
    }

    /** The file of the running or latest recording; empty before the first. Any thread. */
    Optional<Path> file() {
        RecordSwitch.Run r = run;
        return r == null ? Optional.empty() : Optional.of(r.file());
    }

    /** Called on the user-interface thread when a recording's file is there. */
    void onFile(Runnable told) {
        onFile = told;
    }

    @Override
    public void stop() {
        RecordSwitch.Run ending = run;
        if (ending != null && !stopping) {
            stopping = true;
            recorder.stop();
            background.execute(() -> finished = ending.awaitFinished(60, TimeUnit.SECONDS));
        }
    }

    @Override
    public Status status() {
        RecordSwitch.Run r = run;
        if (!refused.isEmpty()) {
            return new Status(State.FAILED, null, 0, 0, refused);
        }
        if (r == null) {
            return Status.idle();
        }
        Exception failure = r.failure();
        long bytes =
                r.file().toFile().length() + Path.of(r.file() + "-wal").toFile().length();
        if (failure != null) {
            return new Status(State.FAILED, r.file(), r.elapsedNanos(), bytes, String.valueOf(failure.getMessage()));
        }
        if (sessionEnded.getAsBoolean() && !stopping) {
            stop(); // the session closed the recording; what is left is to see it finished
        }
        return new Status(state(r), r.file(), r.elapsedNanos(), bytes, "");
    }

    /** Waits until the last recording's file is finished. Any thread but the user interface's. */
    void awaitFinished() {
        RecordSwitch.Run last = run;
        if (last != null) {
            finished = last.awaitFinished(60, TimeUnit.SECONDS);
        }
    }

    private State state(RecordSwitch.Run r) {
        if (finished) {
            return State.IDLE;
        }
        if (stopping) {
            return State.STOPPING;
        }
        if (r.elapsedNanos() == 0) {
            return State.STARTING;
        }
        if (!r.equals(toldOf)) {
            toldOf = r;
            onFile.run();
        }
        return State.RECORDING;
    }
}
