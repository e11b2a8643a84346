package draftwitness.app.cli;

import draftwitness.app.Judged;
import draftwitness.app.KeptSetup;
import draftwitness.app.LiveRun;
import draftwitness.cycle.Cycle;
import draftwitness.input.Durations;
import draftwitness.input.InputException;
import draftwitness.recording.Excerpt;
import draftwitness.recording.RecordingException;
import draftwitness.recording.RecordingFile;
import draftwitness.setup.Setup;
import java.nio.file.Path;
import java.util.List;
import java.util.concurrent.Callable;
import java.util.concurrent.CancellationException;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

/** {@code trim}: chosen cycles of a recording as a recording of its own, to hand over. */
@Command(
        name = "trim",
        mixinStandardHelpOptions = true,
        description =
                "Makes a recording of a part of a recording: chosen cycles with what lies around them, or a span of time."
                        + " Times, values and notes stay what they were; the original is not touched.")
final class TrimCommand implements Callable<Integer> {
    private static final long SECOND = 1_000_000_000;

    /** Enough standby before a cycle to learn the zero and the idle level from. */
    private static final long LEAD = 60 * SECOND;

    private static final Pattern CYCLES = Pattern.compile("([0-9]{1,6})(?:-([0-9]{1,6}))?");

    private final Console console;

    @Parameters(paramLabel = "FILE", description = "The recording (.dwrec).")
    @SuppressWarnings("NullAway.Init") // required: set before call()
    private Path file;

    @Option(names = "--out", required = true, paramLabel = "FILE", description = "The part (.dwrec); must not exist.")
    @SuppressWarnings("NullAway.Init") // required: set before call()
    private Path out;

    @Option(
            names = "--cycles",
            paramLabel = "N[-M]",
            description = "Cycle N, or cycles N to M, as 'analyze' numbers them.")
    private @Nullable String cycles;

    @Option(names = "--from", paramLabel = "TIME", description = "Begin instead of cycles, such as 8m or 7:40.")
    private @Nullable String from;

    @Option(names = "--to", paramLabel = "TIME", description = "End instead of cycles.")
    private @Nullable String to;

    TrimCommand(Console console) {
        this.console = console;
    }

    private record Span(long fromNanos, long toNanos) {}

    @Override
    public Integer call() throws Exception {
        if ((cycles == null) == (from == null && to == null)) {
            throw new InputException("say either --cycles N[-M], or --from and --to");
        }
        RecordingErrors.checkTarget(out);
        try (RecordingFile recording = RecordingFile.open(file)) {
            Span span = cycles == null ? byTime() : byCycles(recording, cycles);
            int notes = copy(recording, span);
            console.err()
                    .println("kept " + Durations.length(span.toNanos() - span.fromNanos()) + " from "
                            + Durations.clock(Math.max(0, span.fromNanos())) + " on in " + out + " ("
                            + LiveRun.size(out) + ", "
                            + notes + (notes == 1 ? " note)" : " notes)"));
            return 0;
        } catch (RecordingException e) {
            throw RecordingErrors.whenReading(e);
        }
    }

    private int copy(RecordingFile recording, Span span) throws Exception {
        try {
            return Excerpt.copy(
                    recording, span.fromNanos(), span.toNanos(), out, new TerminalProgress("trimming", console));
        } catch (CancellationException e) {
            throw new WorkFailedException("stopped before it was complete; nothing is left of it", e);
        } catch (RecordingException e) {
            throw RecordingErrors.whenWriting(e);
        }
    }

    private Span byTime() throws InputException {
        if (from == null || to == null) {
            throw new InputException("--from and --to belong together");
        }
        Span span = new Span(Durations.parseMomentNanos(from), Durations.parseMomentNanos(to));
        if (span.toNanos() <= span.fromNanos()) {
            throw new InputException("--to " + to + " is not after --from " + from);
        }
        return span;
    }

    private static Span byCycles(RecordingFile recording, String text) throws InputException, RecordingException {
        Matcher m = CYCLES.matcher(text);
        if (!m.matches()) {
            throw new InputException("--cycles " + text + " is not a number N or a range N-M");
        }
        int first = Integer.parseInt(m.group(1));
        int last = m.group(2) == null ? first : Integer.parseInt(m.group(2));
        Setup setup = KeptSetup.of(recording);
        List<Cycle> all = Judged.of(recording, setup).cycles().cycles();
        if (first < 1 || last < first || last > all.size()) {
            throw new InputException("--cycles " + text + ": the recording has cycles 1 to " + all.size());
        }
        return around(all, first, last, setup);
    }

    /** From standby before the first to so long after the last that no retry can follow, but not into others. */
    private static Span around(List<Cycle> all, int first, int last, Setup setup) {
        long begin = all.get(first - 1).startNanos() - LEAD;
        long end = all.get(last - 1).endNanos() + Math.round(setup.sequence().retryMax() * 1e9) + 5 * SECOND;
        if (first > 1) {
            begin = Math.max(begin, all.get(first - 2).endNanos());
        }
        if (last < all.size()) {
            end = Math.min(end, all.get(last).startNanos());
        }
        return new Span(begin, end);
    }
}
