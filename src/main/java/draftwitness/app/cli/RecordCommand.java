package draftwitness.app.cli;

import draftwitness.app.HealthReporter;
import draftwitness.app.LiveRun;
import draftwitness.app.RecordSwitch;
import draftwitness.app.Sessions;
import draftwitness.app.TextReporter;
import draftwitness.app.ZeroFirst;
import draftwitness.capture.CaptureSession;
import draftwitness.capture.SourceHealth;
import draftwitness.input.Durations;
import draftwitness.input.InputException;
import draftwitness.link.LinkException;
import draftwitness.reading.SessionListener;
import draftwitness.setup.Setup;
import java.io.PrintStream;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.Callable;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;

/** {@code record}: records without a window until the time is over, the sources end, or it is asked to stop. */
@Command(
        name = "record",
        mixinStandardHelpOptions = true,
        description = "Records sources into a file without a window. Ctrl-C or SIGTERM stops in good order.")
final class RecordCommand implements Callable<Integer> {
    private static final long PROGRESS_NANOS = 10_000_000_000L;

    private final Console console;

    @Mixin
    private SourceOptions sources = new SourceOptions();

    @Option(
            names = "--out",
            required = true,
            paramLabel = "FILE",
            description = "The recording to make (.dwrec); must not exist.")
    @SuppressWarnings("NullAway.Init") // required: set before call()
    private Path out;

    @Option(
            names = "--for",
            paramLabel = "TIME",
            description = "How long, such as 8h, 10m, 45s, 7:40; without it until stopped.")
    private @Nullable String length;

    @Option(names = "--keep", paramLabel = "all", description = "What to keep: all readings (default).")
    private String keep = "all";

    @Mixin
    private ZeroOption zero = new ZeroOption();

    RecordCommand(Console console) {
        this.console = console;
    }

    @Override
    public Integer call() throws Exception {
        if (!keep.equals("all")) {
            throw new InputException("--keep " + keep + ": this version keeps all readings; say --keep all or nothing");
        }
        Setup setup = sources.setup();
        List<SessionListener> listeners = new ArrayList<>();
        listeners.add(new TextReporter(console.err(), PROGRESS_NANOS));
        return run(console, sources, setup, out, length, zero, listeners);
    }

    /**
     * Runs a session without a window, recording it if a file is given; used by {@code record} and {@code watch
     * --text}.
     */
    static int run(
            Console console,
            SourceOptions sources,
            Setup setup,
            @Nullable Path out,
            @Nullable String length,
            ZeroOption zero,
            List<SessionListener> others)
            throws InputException, WorkFailedException, InterruptedException {
        long forNanos = length == null ? Long.MAX_VALUE : Durations.parseNanos(length);
        RecordSwitch recorder = new RecordSwitch();
        List<SessionListener> listeners = new ArrayList<>();
        listeners.add(recorder); // first: whatever others do, the recording has it
        listeners.addAll(others);
        ZeroFirst zeroFirst = new ZeroFirst(console.err());
        if (zero.first()) {
            listeners.add(zeroFirst);
        }
        CaptureSession session = Sessions.live(sources.plans(setup), setup, console.stop(), listeners);
        RecordSwitch.Run run = null;
        if (out != null) {
            RecordingErrors.checkTarget(out);
            run = recorder.start(out);
        }
        zeroFirst.of(session.zeros());
        session.endAt(forNanos);
        console.stop().attend();
        start(session);
        HealthReporter reporter = new HealthReporter(console.err());
        return tell(console.err(), LiveRun.run(session, console.stop(), run, reporter), run);
    }

    static void start(CaptureSession session) throws WorkFailedException {
        try {
            session.start();
        } catch (LinkException e) {
            throw new WorkFailedException(String.valueOf(e.getMessage()), e);
        }
    }

    static int tell(PrintStream err, LiveRun.Outcome outcome, RecordSwitch.@Nullable Run run) {
        for (SourceHealth h : outcome.health()) {
            err.println(HealthReporter.line(h));
        }
        int code = 0;
        Exception failure = outcome.recordingFailure();
        if (run != null && failure != null) {
            err.println("draftwitness: " + failure.getMessage() + "; kept up to "
                    + Durations.clock(Math.max(0, run.committedNanos())));
            code = CommandLineProgram.FAILED;
        } else if (run != null) {
            err.println("recorded " + Durations.clock(run.elapsedNanos()) + " into " + run.file() + " ("
                    + LiveRun.size(run.file()) + ")");
        }
        for (SourceHealth h : outcome.health()) {
            if (h.bytes() > 0 && h.readings() == 0) {
                err.println("draftwitness: " + h.id() + " sent " + h.bytes()
                        + " bytes, and none of them was a reading; wrong"
                        + " driver or baud rate? 'sources --listen' tells what fits");
                code = CommandLineProgram.FAILED;
            }
        }
        for (SourceHealth h : outcome.lost()) {
            err.println("draftwitness: " + h.id() + " was away at the end (" + h.detail() + ")");
            code = CommandLineProgram.FAILED;
        }
        return code;
    }
}
