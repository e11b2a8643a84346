package draftwitness.report;

import draftwitness.cycle.ChannelSummary;
import draftwitness.cycle.Cycle;
import draftwitness.cycle.CycleReport;
import draftwitness.cycle.Finding;
import draftwitness.cycle.Gap;
import draftwitness.cycle.Margin;
import draftwitness.cycle.SessionSummary;
import draftwitness.diagnosis.DiagnosisReport;
import draftwitness.diagnosis.EvidenceLine;
import draftwitness.diagnosis.NextCheck;
import draftwitness.diagnosis.RankedCause;
import draftwitness.input.Durations;
import draftwitness.reading.SessionHeader;
import draftwitness.reading.Tap;
import draftwitness.reading.Unit;
import java.time.Instant;
import java.time.temporal.ChronoUnit;
import java.util.List;
import java.util.Locale;
import org.jspecify.annotations.Nullable;

/** The analysis of one recording as text for a person, without a line end at the end. Pure. */
public final class AnalysisText {
    private static final double LEAST_SHOWN = 0.03;
    private static final int MOST_CHECKS = 3;

    private AnalysisText() {}

    /**
     * Writes what a recording holds, what the furnace did in it, and what is likely wrong.
     *
     * @param file the path as given
     */
    public static String of(String file, SessionSummary summary, CycleReport report, DiagnosisReport diagnosis) {
        StringBuilder out = new StringBuilder();
        SessionHeader header = summary.header();
        out.append(file)
                .append(header == null || header.title().isEmpty() ? "" : ": " + header.title())
                .append(
                        header == null || header.start() == null
                                ? ""
                                : ", from " + begun(header.start(), summary.firstNanos()))
                .append(", ")
                .append(Durations.length(summary.durationNanos()))
                .append(" long");
        summary.channels().forEach(c -> channel(out, c));
        out.append("\n  ").append(report.cycles().isEmpty() ? "no heating cycle" : "heating cycles:");
        Unit unit = unit(header);
        report.cycles().forEach(c -> cycle(out, c, unit));
        if (!report.findings().isEmpty()) {
            out.append("\n  findings:");
        }
        for (Finding f : report.findings()) {
            out.append("\n    ").append(f.severity().id()).append(", ");
            out.append(f.kind()).append(f.endNanos() == 0 ? "" : " at " + Durations.clock(f.startNanos()));
            out.append(f.cycle() == 0 ? "" : " (cycle " + f.cycle() + ")")
                    .append(": ")
                    .append(f.text());
        }
        causes(out, diagnosis);
        return out.toString();
    }

    private static void causes(StringBuilder out, DiagnosisReport diagnosis) {
        out.append("\n  what is likely:");
        for (RankedCause c : diagnosis.causes()) {
            if (c.probability() < LEAST_SHOWN) {
                continue;
            }
            out.append(String.format(
                    Locale.ROOT,
                    "%n    %.0f %%, %s: %s",
                    100 * c.probability(),
                    c.cause().id(),
                    c.cause().name()));
            lines(out, "for", c.supporting());
            lines(out, "against", c.opposing());
        }
        out.append("\n    ").append(diagnosis.conclusion());
        if (!diagnosis.nextChecks().isEmpty()) {
            out.append("\n  next checks, best first by bits a minute:");
        }
        for (NextCheck n : diagnosis.nextChecks().stream().limit(MOST_CHECKS).toList()) {
            out.append(String.format(
                    Locale.ROOT,
                    "%n    %s (%s): %.2f bits in %.0f min. %s",
                    n.check().title(),
                    n.check().id(),
                    n.gainBits(),
                    n.check().minutes(),
                    n.text()));
        }
    }

    /** The strongest two lines of evidence, with their log-odds. */
    private static void lines(StringBuilder out, String which, List<EvidenceLine> lines) {
        for (EvidenceLine l : lines.stream().limit(2).toList()) {
            out.append(String.format(Locale.ROOT, "%n      %s, %+.1f bits: %s", which, l.bits(), l.text()));
        }
    }

    private static Unit unit(@Nullable SessionHeader header) {
        return header == null
                ? Unit.PASCAL
                : header.channelAt(Tap.DRAFT_SWITCH).map(c -> c.unit()).orElse(Unit.PASCAL);
    }

    private static void channel(StringBuilder out, ChannelSummary c) {
        out.append("\n  ").append(c.channel().tap().role()).append(": ").append(c.readings());
        out.append(" readings in ").append(c.channel().unit().symbol());
        out.append(
                c.periodNanos() == 0
                        ? ""
                        : String.format(Locale.ROOT, ", usually every %.3f s", c.periodNanos() / 1e9));
        for (Gap gap : c.gaps()) {
            out.append(String.format(
                    Locale.ROOT,
                    "%n    no readings from %.1f s to %.1f s (%.1f s)",
                    gap.startNanos() / 1e9,
                    gap.endNanos() / 1e9,
                    (gap.endNanos() - gap.startNanos()) / 1e9));
        }
    }

    private static void cycle(StringBuilder out, Cycle c, Unit unit) {
        out.append(String.format(
                Locale.ROOT,
                "%n    %d. %s to %s, %s%s, %d attempt%s",
                c.index(),
                Durations.clock(c.startNanos()),
                Durations.clock(c.endNanos()),
                c.outcome().id(),
                c.reason() == null ? "" : " (" + c.reason().id() + ")",
                c.attempts(),
                c.attempts() == 1 ? "" : "s"));
        Margin m = c.margin();
        if (m != null) {
            out.append(String.format(
                    Locale.ROOT,
                    ", margin %s (first percentile %.3g %s, weakest %.3g)",
                    m.band().id(),
                    unit.fromBase(m.p01Pascals()),
                    unit.symbol(),
                    unit.fromBase(m.minPascals())));
        }
        if (!c.episodes().isEmpty()) {
            out.append(", ").append(c.episodes().size()).append(c.episodes().size() == 1 ? " episode" : " episodes");
        }
    }

    /** When the first reading came; a recording may have begun long after its session. */
    private static Instant begun(Instant start, long firstNanos) {
        return start.plusNanos(firstNanos).truncatedTo(ChronoUnit.SECONDS);
    }
}
