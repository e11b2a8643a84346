package draftwitness.app;

import draftwitness.capture.SourceHealth;
import draftwitness.cycle.Cycle;
import draftwitness.cycle.Episode;
import draftwitness.cycle.LiveReport;
import draftwitness.cycle.LiveSnapshot;
import draftwitness.cycle.Margin;
import draftwitness.cycle.Outcome;
import draftwitness.input.Durations;
import draftwitness.reading.SessionHeader;
import draftwitness.reading.SessionListener;
import draftwitness.reading.Slice;
import draftwitness.reading.Unit;
import java.io.IOException;
import java.nio.file.Path;
import java.util.List;
import java.util.Locale;
import java.util.function.Supplier;
import org.jspecify.annotations.Nullable;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/**
 * A small text file that tells at a glance how an unattended session is doing; written anew every ten seconds of
 * session time, always whole. A disk that does not take it is said once in the log and does not touch the session.
 *
 * <p>One owner thread, the session's.
 */
public final class StatusFile implements SessionListener {
    private static final long EVERY_NANOS = 10_000_000_000L;
    private static final Logger LOG = LoggerFactory.getLogger(StatusFile.class);

    private final Path file;
    private final Supplier<LiveSnapshot> analysis;
    private Supplier<List<SourceHealth>> health = List::of;
    private Supplier<String> recording = () -> "";
    private @Nullable SessionHeader header;
    private long writtenNanos = Long.MIN_VALUE / 2;
    private long nowNanos;
    private boolean complained;

    /**
     * A file for one session.
     *
     * @param analysis what the furnace did so far: of a {@link LiveReport} that is told of the session before this
     */
    public StatusFile(Path file, Supplier<LiveSnapshot> analysis) {
        this.file = file;
        this.analysis = analysis;
    }

    /**
     * Says whom to ask, before the session starts.
     *
     * @param sources the sources' figures now
     * @param kept how the recording is doing, a few words; empty without one
     */
    public void ask(Supplier<List<SourceHealth>> sources, Supplier<String> kept) {
        health = sources;
        recording = kept;
    }

    @Override
    public void begin(SessionHeader begun) {
        header = begun;
    }

    @Override
    public void slice(Slice slice) {
        nowNanos = slice.endNanos();
        if (nowNanos - writtenNanos >= EVERY_NANOS) {
            writtenNanos = nowNanos;
            write("goes on");
        }
    }

    @Override
    public void end() {
        write("over");
    }

    private void write(String state) {
        try {
            WholeFile.write(file, text(state));
        } catch (IOException e) {
            if (!complained) {
                complained = true;
                LOG.warn("the status file {} cannot be written; the session goes on ({})", file, e.getMessage());
            }
        }
    }

    private String text(String state) {
        StringBuilder out = new StringBuilder();
        SessionHeader known = header;
        String title = known == null || known.title().isEmpty() ? "session" : known.title();
        out.append(title).append(": ").append(state).append(", ").append(Durations.clock(Math.max(0, nowNanos)));
        if (known != null && known.start() != null) {
            out.append(" since ").append(known.start());
        }
        String words = recording.get();
        out.append(words.isEmpty() ? "" : "\nrecording: " + words);
        LiveSnapshot snapshot = analysis.get();
        if (snapshot.now().phase() != null) {
            out.append("\nnow: ").append(snapshot.now().phase().id());
            out.append(" since ")
                    .append(Durations.clock(Math.max(0, snapshot.now().sinceNanos())));
        }
        cycles(out, snapshot.report().cycles());
        for (SourceHealth h : health.get()) {
            out.append("\nsource ")
                    .append(h.state().name().toLowerCase(Locale.ROOT))
                    .append(": ");
            out.append(HealthReporter.line(h));
        }
        return out.append('\n').toString();
    }

    private static void cycles(StringBuilder out, List<Cycle> cycles) {
        long heated = cycles.stream().filter(c -> c.outcome() == Outcome.HEATED).count();
        long lockouts =
                cycles.stream().filter(c -> c.outcome() == Outcome.LOCKOUT).count();
        out.append("\ncycles: ").append(cycles.size()).append(", heated ").append(heated);
        out.append(", lockouts ").append(lockouts);
        Cycle worst = null;
        Cycle failed = null;
        Episode last = null;
        for (Cycle c : cycles) {
            Margin m = c.margin();
            if (m != null
                    && (worst == null
                            || worst.margin() == null
                            || m.p01Pascals() < worst.margin().p01Pascals())) {
                worst = c;
            }
            failed = failed == null && c.outcome() != Outcome.HEATED && c.outcome() != Outcome.INCOMPLETE ? c : failed;
            last = c.episodes().isEmpty() ? last : c.episodes().get(c.episodes().size() - 1);
        }
        if (failed != null) {
            out.append("\nfirst failing cycle: ")
                    .append(failed.index())
                    .append(", ")
                    .append(failed.outcome().id());
            out.append(", at ").append(Durations.clock(Math.max(0, failed.startNanos())));
        }
        if (worst != null && worst.margin() != null) {
            double inches = Unit.INCH_OF_WATER.fromBase(worst.margin().p01Pascals());
            out.append(String.format(
                    Locale.ROOT,
                    "%nworst margin: %.2f inH2O (%s) in cycle %d",
                    inches,
                    worst.margin().band().id(),
                    worst.index()));
        }
        if (last != null) {
            out.append("\nlatest episode: ").append(last.kind().id());
            out.append(" at ")
                    .append(Durations.clock(Math.max(0, last.startNanos())))
                    .append(", ")
                    .append(last.text());
        }
    }
}
