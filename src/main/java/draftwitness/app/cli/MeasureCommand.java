package draftwitness.app.cli;

import draftwitness.app.KeptSetup;
import draftwitness.app.MeasuredSpans;
import draftwitness.diagnosis.guided.GuidedKind;
import draftwitness.diagnosis.guided.GuidedPlan;
import draftwitness.diagnosis.guided.GuidedResult;
import draftwitness.diagnosis.guided.GuidedRun;
import draftwitness.diagnosis.guided.GuidedText;
import draftwitness.diagnosis.guided.Part;
import draftwitness.diagnosis.guided.Terms;
import draftwitness.input.Durations;
import draftwitness.input.InputException;
import draftwitness.input.Roles;
import draftwitness.reading.Channel;
import draftwitness.reading.Quantity;
import draftwitness.reading.Tap;
import draftwitness.reading.Unit;
import draftwitness.reading.Zeros;
import draftwitness.recording.Notebook;
import draftwitness.recording.RecordingException;
import draftwitness.recording.RecordingFile;
import draftwitness.report.GuidedReport;
import draftwitness.setup.Setup;
import draftwitness.time.Ticker;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import java.util.concurrent.Callable;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

/** {@code measure}: a guided measurement on spans of a recording. */
@Command(
        name = "measure",
        mixinStandardHelpOptions = true,
        description = "Makes a guided measurement on spans of a recording and tells the verdict with its uncertainty."
                + " The same judgement as in the window.")
final class MeasureCommand implements Callable<Integer> {
    private final Console console;

    @Parameters(
            index = "0",
            paramLabel = "KIND",
            description = "leak-down, leak-down-parts, switch-points, two-taps, gas, static-pressure, vent-on-off or"
                    + " before-after.")
    @SuppressWarnings("NullAway.Init") // required: set before call()
    private String kindText;

    @Parameters(index = "1", paramLabel = "FILE", description = "The recording (.dwrec).")
    @SuppressWarnings("NullAway.Init") // required: set before call()
    private Path file;

    @Option(names = "--from", paramLabel = "TIME", description = "From this time after the start, such as 7:40.")
    private @Nullable String from;

    @Option(names = "--to", paramLabel = "TIME", description = "Up to this time after the start (exclusive).")
    private @Nullable String to;

    @Option(
            names = "--part",
            paramLabel = "NAME=FROM..TO[@FILE]",
            description = "A part of a measurement that has several, such as on=30..50; maybe of another recording."
                    + " May be given several times.")
    private List<String> partTexts = new ArrayList<>();

    @Option(names = "--at", paramLabel = "ROLE", description = "The tap, where several would do.")
    private @Nullable String role;

    @Option(names = "--volume", paramLabel = "ML", description = "Volume under suction in a leak-down, in millilitres.")
    private @Nullable Double millilitres;

    @Option(names = "--low-fire", description = "The manifold was measured at low fire.")
    private boolean lowFire;

    @Option(names = "--json", description = "One JSON object on one line.")
    private boolean json;

    @Option(names = "--keep", description = "Keeps the result with the recording, as a note.")
    private boolean keep;

    @Option(
            names = "--setup",
            paramLabel = "FILE",
            description = "Setup file (TOML) to use instead of the one kept with the recording.")
    private @Nullable Path setupFile;

    MeasureCommand(Console console) {
        this.console = console;
    }

    /** A part to take: from where, and from which recording. */
    private record Span(String part, long fromNanos, long toNanos, Path file) {}

    @Override
    public Integer call() throws Exception {
        GuidedKind kind = GuidedKind.ofId(kindText)
                .orElseThrow(() -> new InputException(
                        "'" + kindText + "' is not a guided measurement; known: " + GuidedKind.ids()));
        try (RecordingFile recording = RecordingFile.open(file)) {
            Tap tap = role == null ? null : Roles.parse(role);
            Set<Tap> taps =
                    recording.header().channels().stream().map(Channel::tap).collect(Collectors.toSet());
            GuidedPlan plan = GuidedPlan.of(kind, taps, tap)
                    .orElseThrow(() -> new InputException(
                            file + ": " + kind.id() + " needs " + GuidedPlan.needs(kind) + ", and the recording has "
                                    + taps.stream().map(Tap::role).sorted().collect(Collectors.joining(" "))));
            GuidedRun run = new GuidedRun(plan, terms(recording, plan, tap), new Zeros());
            for (Span span : spans(plan)) {
                take(recording, run, span);
            }
            GuidedResult result = run.result();
            console.out().println(json ? GuidedReport.json(file.toString(), result) : GuidedReport.text(result));
            if (keep) {
                keep(result);
            }
            return 0;
        } catch (RecordingException e) {
            throw RecordingErrors.whenReading(e);
        }
    }

    private Terms terms(RecordingFile recording, GuidedPlan plan, @Nullable Tap tap) throws InputException {
        Setup setup = setupFile != null ? Setup.read(setupFile) : KeptSetup.of(recording);
        double volume = millilitres == null ? Terms.USUAL_VOLUME_CUBIC_METRES : millilitres / 1e6;
        if (!(volume > 0 && volume < 1)) {
            throw new InputException("--volume " + millilitres + " is not a volume in millilitres");
        }
        Unit unit = recording
                .header()
                .channelAt(plan.parts().get(0).taps().get(0))
                .map(Channel::unit)
                .filter(u -> u.quantity() == Quantity.PRESSURE)
                .orElse(Unit.PASCAL);
        return new Terms(setup, tap, volume, lowFire, unit);
    }

    private void take(RecordingFile recording, GuidedRun run, Span span) throws RecordingException {
        if (span.file().equals(file)) {
            MeasuredSpans.take(recording, run, span.part(), span.fromNanos(), span.toNanos(), () -> false);
            return;
        }
        try (RecordingFile other = RecordingFile.open(span.file())) {
            MeasuredSpans.take(other, run, span.part(), span.fromNanos(), span.toNanos(), () -> false);
        }
    }

    private List<Span> spans(GuidedPlan plan) throws InputException {
        String names = plan.parts().stream().map(Part::id).collect(Collectors.joining(", "));
        List<Span> spans = new ArrayList<>();
        for (String text : partTexts) {
            Span span = span(text);
            if (plan.part(span.part()).isEmpty()) {
                throw new InputException("--part " + text + ": " + plan.kind().id() + " has the parts " + names);
            }
            spans.add(span);
        }
        if (from != null || to != null) {
            if (plan.parts().size() != 1 || from == null || to == null) {
                throw new InputException(
                        plan.parts().size() == 1
                                ? "--from and --to go together"
                                : plan.kind().id() + " has several parts (" + names + "): say --part NAME=FROM..TO");
            }
            spans.add(checked(
                    "--from " + from + " --to " + to, plan.parts().get(0).id(), from, to, file));
        }
        if (spans.isEmpty()) {
            throw new InputException("say which span: "
                    + (plan.parts().size() == 1
                            ? "--from TIME --to TIME"
                            : "--part NAME=FROM..TO, NAME one of " + names));
        }
        return spans;
    }

    private Span span(String text) throws InputException {
        int equals = text.indexOf('=');
        int dots = text.indexOf("..", Math.max(0, equals));
        int at = text.indexOf('@', Math.max(0, dots));
        if (equals < 1 || dots < 0) {
            throw new InputException("--part " + text + ": write it as NAME=FROM..TO, for example on=30..50");
        }
        String end = at < 0 ? text.substring(dots + 2) : text.substring(dots + 2, at);
        Path of = at < 0 ? file : Path.of(text.substring(at + 1));
        return checked("--part " + text, text.substring(0, equals), text.substring(equals + 1, dots), end, of);
    }

    private static Span checked(String option, String part, String fromText, String toText, Path of)
            throws InputException {
        try {
            long first = Durations.parseMomentNanos(fromText);
            long end = Durations.parseMomentNanos(toText);
            if (end <= first) {
                throw new InputException("the span is empty");
            }
            return new Span(part, first, end, of);
        } catch (InputException e) {
            throw new InputException(option + ": " + e.getMessage(), e);
        }
    }

    private void keep(GuidedResult result) throws Exception {
        long first = result.spans().stream()
                .mapToLong(GuidedResult.Span::fromNanos)
                .min()
                .orElse(0);
        long end = result.spans().stream()
                .mapToLong(GuidedResult.Span::toNanos)
                .max()
                .orElse(first);
        try {
            Notebook.of(file)
                    .add(first, end, GuidedText.of(result), Ticker.system().wallClock());
        } catch (RecordingException e) {
            throw RecordingErrors.whenWriting(e);
        }
        console.err().println("kept as a note in " + file);
    }
}
