package draftwitness.app.cli;

import draftwitness.app.EpisodeKeeper;
import draftwitness.app.HealthReporter;
import draftwitness.app.LiveRun;
import draftwitness.app.RecordSwitch;
import draftwitness.app.Sessions;
import draftwitness.app.StatusFile;
import draftwitness.app.TextReporter;
import draftwitness.app.ZeroFirst;
import draftwitness.capture.CaptureSession;
import draftwitness.capture.SourceHealth;
import draftwitness.cycle.LiveReport;
import draftwitness.input.ByteSizes;
import draftwitness.input.Durations;
import draftwitness.input.InputException;
import draftwitness.link.LinkException;
import draftwitness.reading.SessionListener;
import draftwitness.recording.KeepPolicy;
import draftwitness.setup.Setup;
import java.io.PrintStream;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.Callable;
import java.util.function.Supplier;
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
    private static final long DEFAULT_MEMORY_NANOS = 1800_000_000_000L;
    private static final long LEAST_MEMORY_NANOS = 300_000_000_000L;
    private static final long DEFAULT_MARGIN_NANOS = 120_000_000_000L;

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

    @Option(
            names = "--keep",
            paramLabel = "all|episodes",
            description =
                    "What stays at full rate: all readings (default), or for long unattended runs episodes alone: the"
                            + " latest --memory always, and --margin before and after every episode but light-off dips, and every"
                            + " cycle that failed or needed another attempt. Of the rest least, greatest, first and last reading"
                            + " of every 4 seconds stay.")
    private String keep = "all";

    @Mixin
    private ZeroOption zero = new ZeroOption();

    @Option(
            names = "--memory",
            paramLabel = "TIME",
            description =
                    "With --keep episodes: how long everything stays, so that what led up to an episode is still there"
                            + " when it is found; 30m by default, at least 5m.")
    private @Nullable String memory;

    @Option(
            names = "--margin",
            paramLabel = "TIME",
            description = "With --keep episodes: full rate so long before and after; 2m by default.")
    private @Nullable String margin;

    @Option(
            names = "--budget",
            paramLabel = "SIZE",
            description = "With --keep episodes: the file's size at most, such as 500MB. When it is reached, the oldest"
                    + " episodes are thinned too; when that is not enough, recording ends in good order.")
    private @Nullable String budget;

    @Option(
            names = "--status",
            paramLabel = "FILE",
            description = "A small text file, written anew every 10 s, that tells at a glance how it is going.")
    private @Nullable Path status;

    RecordCommand(Console console) {
        this.console = console;
    }

    /** What a run does beside recording everything: thin by a policy, keep a status file; null for neither. */
    private record Beside(
            @Nullable KeepPolicy policy, @Nullable Path status) {
        /** Whether it has to be known what the furnace does. */
        boolean asksWhatHappens() {
            return policy != null || status != null;
        }
    }

    @Override
    public Integer call() throws Exception {
        KeepPolicy policy = policy();
        Setup setup = sources.setup();
        List<SessionListener> listeners = new ArrayList<>();
        listeners.add(new TextReporter(console.err(), PROGRESS_NANOS));
        return run(console, sources, setup, out, new Beside(policy, status), length, zero, listeners);
    }

    private @Nullable KeepPolicy policy() throws InputException {
        if (keep.equals("all")) {
            if (memory != null || margin != null || budget != null) {
                throw new InputException("--memory, --margin and --budget go with --keep episodes");
            }
            return null;
        }
        if (!keep.equals("episodes")) {
            throw new InputException("--keep " + keep + ": say all or episodes");
        }
        long memoryNanos = memory == null ? DEFAULT_MEMORY_NANOS : Durations.parseNanos(memory);
        if (memoryNanos < LEAST_MEMORY_NANOS) {
            throw new InputException("--memory " + memory + " is too short to find an episode in; say 5m or more");
        }
        return new KeepPolicy(
                memoryNanos,
                margin == null ? DEFAULT_MARGIN_NANOS : Durations.parseMomentNanos(margin),
                budget == null ? Long.MAX_VALUE : ByteSizes.parse(budget));
    }

    /** The same as the longer one, with everything kept. */
    static int run(
            Console console,
            SourceOptions sources,
            Setup setup,
            @Nullable Path out,
            @Nullable String length,
            ZeroOption zero,
            List<SessionListener> others)
            throws InputException, WorkFailedException, InterruptedException {
        return run(console, sources, setup, out, new Beside(null, null), length, zero, others);
    }

    /**
     * Runs a session without a window, recording it if a file is given; used by {@code record} and {@code watch
     * --text}.
     */
    private static int run(
            Console console,
            SourceOptions sources,
            Setup setup,
            @Nullable Path out,
            Beside beside,
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
        RecordSwitch.Run run = null;
        if (out != null) {
            RecordingErrors.checkTarget(out);
            run = recorder.start(out, beside.policy());
        }
        LiveReport report = new LiveReport(setup);
        if (beside.asksWhatHappens()) {
            listeners.add(report); // before those who look at it
        }
        if (run != null && beside.policy() != null) {
            listeners.add(new EpisodeKeeper(report::snapshot, run::claim));
        }
        StatusFile status = beside.status() == null ? null : new StatusFile(beside.status(), report::snapshot);
        if (status != null) {
            listeners.add(status);
        }
        CaptureSession session = Sessions.live(sources.plans(setup), setup, console.stop(), listeners);
        zeroFirst.of(session.zeros());
        if (status != null) {
            status.ask(session::health, words(run));
        }
        session.endAt(forNanos);
        console.stop().attend();
        start(session);
        HealthReporter reporter = new HealthReporter(console.err());
        return tell(console.err(), LiveRun.run(session, console.stop(), run, reporter), run);
    }

    private static Supplier<String> words(RecordSwitch.@Nullable Run run) {
        return () -> run == null
                ? ""
                : run.file() + ", " + LiveRun.size(run.file())
                        + (run.failure() == null
                                ? ", safe on the disk up to " + Durations.clock(Math.max(0, run.committedNanos()))
                                : ", BROKEN OFF: " + run.failure().getMessage());
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
        if (failure != null) {
            err.println("draftwitness: " + failure.getMessage()
                    + (run == null ? "" : "; kept up to " + Durations.clock(Math.max(0, run.committedNanos()))));
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
