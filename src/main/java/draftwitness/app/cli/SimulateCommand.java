package draftwitness.app.cli;

import draftwitness.app.LiveRun;
import draftwitness.app.RecordSwitch;
import draftwitness.app.ServedSimulation;
import draftwitness.app.Sessions;
import draftwitness.app.WholeFile;
import draftwitness.capture.CaptureSession;
import draftwitness.furnace.Scenario;
import draftwitness.furnace.Scenarios;
import draftwitness.furnace.Simulation;
import draftwitness.input.Durations;
import draftwitness.input.InputException;
import draftwitness.input.Roles;
import draftwitness.link.LinkAddress;
import draftwitness.link.LinkException;
import draftwitness.reading.SessionHeader;
import draftwitness.reading.SessionListener;
import draftwitness.reading.Slice;
import draftwitness.reading.Tap;
import java.io.IOException;
import java.io.PrintStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.concurrent.Callable;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

/** {@code simulate}: a recording of the model house, with the truth beside it. */
@Command(
        name = "simulate",
        mixinStandardHelpOptions = true,
        description = "Records a scenario of the built-in furnace model, and writes what truly happened beside it"
                + " (FILE.truth.json). The same scenario and seed give the same readings.")
final class SimulateCommand implements Callable<Integer> {
    private static final long TOLD_EVERY_NANOS = 600_000_000_000L;

    private final Console console;

    @Parameters(arity = "0..1", paramLabel = "SCENARIO", description = "A scenario's name, or a scenario file (TOML).")
    private @Nullable String scenarioName;

    @Option(names = "--list", description = "Lists the scenarios and what each teaches.")
    private boolean list;

    @Option(names = "--seed", paramLabel = "N", description = "Seed of everything random; 1 by default.")
    private int seed = 1;

    @Option(
            names = "--for",
            paramLabel = "TIME",
            description = "How long, such as 2h; the scenario's own length by default.")
    private @Nullable String length;

    @Option(names = "--out", paramLabel = "FILE", description = "The recording to make (.dwrec); must not exist.")
    private @Nullable Path out;

    @Option(
            names = "--serve",
            paramLabel = "LINK",
            description = "Plays the scenario out of a serial port or TCP connection instead of recording it, as a fake"
                    + " instrument for trying a driver, such as serial:/dev/pts/5.")
    private @Nullable String serve;

    @Option(
            names = "--tap",
            paramLabel = "ROLE",
            description = "With --serve: this tap's values alone, one plain value a line.")
    private @Nullable String tap;

    @Option(names = "--speed", paramLabel = "N", description = "With --serve: times real time; 1 by default.")
    private double speed = 1;

    SimulateCommand(Console console) {
        this.console = console;
    }

    @Override
    public Integer call() throws Exception {
        if (list) {
            for (Scenario s : Scenarios.list()) {
                console.out().println(s.name() + "  " + s.title() + ": " + s.lesson());
            }
            return 0;
        }
        if (scenarioName != null && serve != null) {
            return serve(scenarioName, serve);
        }
        if (scenarioName == null || out == null) {
            throw new InputException("say which SCENARIO, and --out FILE or --serve LINK; or --list");
        }
        if (seed < 0) {
            throw new InputException("--seed " + seed + " is negative");
        }
        Scenario scenario = Scenarios.find(scenarioName);
        long nanos = length == null ? Math.round(scenario.durationSeconds() * 1e9) : Durations.parseNanos(length);
        record(scenarioName, scenario, nanos, out);
        return 0;
    }

    private int serve(String scenarioText, String target) throws InputException, WorkFailedException {
        if (out != null) {
            throw new InputException("--serve does not record; leave out --out, and record the other end");
        }
        String role = tap;
        Tap only = role == null ? null : tap(role);
        LinkAddress link = LinkAddress.parse("simulated:" + scenarioText + "?seed=" + seed + "&speed=" + speed);
        try {
            long sent = ServedSimulation.run(
                    link, LinkAddress.parse(target), only, length == null ? -1 : Durations.parseNanos(length));
            console.err().println("sent " + sent + " lines of " + scenarioText + " to " + target);
            return 0;
        } catch (LinkException e) {
            throw new WorkFailedException(String.valueOf(e.getMessage()), e);
        }
    }

    private static Tap tap(String role) throws InputException {
        try {
            return Roles.parse(role);
        } catch (InputException e) {
            throw new InputException("--tap: " + e.getMessage(), e);
        }
    }

    private void record(String scenarioText, Scenario scenario, long nanos, Path file) throws Exception {
        Path truth = file.resolveSibling(truthName(file));
        if (Files.exists(truth)) {
            throw new InputException(truth + " is there already; choose another name, or move it away");
        }
        RecordingErrors.checkTarget(file);
        RecordSwitch recorder = new RecordSwitch();
        RecordSwitch.Run run = recorder.start(file);
        console.stop().attend();
        CaptureSession session =
                Sessions.simulated(scenarioText, seed, nanos, List.of(recorder, new Progress(console.err(), nanos)));
        session.start();
        LiveRun.Outcome outcome = LiveRun.run(session, console.stop(), run);
        Exception failure = outcome.recordingFailure();
        if (failure != null) {
            throw new WorkFailedException(String.valueOf(failure.getMessage()), failure);
        }
        writeTruth(scenario, Math.min(nanos, session.handedOnNanos()), truth);
        console.err()
                .println("recorded " + Durations.clock(run.elapsedNanos()) + " of " + scenario.name() + " into " + file
                        + " (" + LiveRun.size(file) + "); the truth is in " + truth);
    }

    private static String truthName(Path file) {
        String name = String.valueOf(file.getFileName());
        return (name.endsWith(".dwrec") ? name.substring(0, name.length() - 6) : name) + ".truth.json";
    }

    private void writeTruth(Scenario scenario, long nanos, Path truth) throws WorkFailedException {
        Simulation simulation = Simulation.start(scenario, seed);
        simulation.advanceTo(nanos, (sensor, time, count) -> {});
        try {
            WholeFile.write(truth, simulation.truthJson() + "\n");
        } catch (IOException e) {
            throw new WorkFailedException(truth + ": cannot be written (" + e.getMessage() + ")", e);
        }
    }

    /** Tells now and then how far a simulation has come. */
    private static final class Progress implements SessionListener {
        private final PrintStream err;
        private final long nanos;

        Progress(PrintStream err, long nanos) {
            this.err = err;
            this.nanos = nanos;
        }

        @Override
        public void begin(SessionHeader header) {
            err.println(header.title());
        }

        @Override
        public void slice(Slice slice) {
            if (slice.endNanos() % TOLD_EVERY_NANOS == 0) {
                err.println(Durations.clock(slice.endNanos()) + " of " + Durations.clock(nanos));
            }
        }

        @Override
        public void end() {
            err.flush();
        }
    }
}
