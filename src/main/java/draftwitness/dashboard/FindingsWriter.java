package draftwitness.dashboard;

import draftwitness.cycle.CycleReport;
import draftwitness.cycle.Finding;
import draftwitness.diagnosis.Check;
import draftwitness.diagnosis.DiagnosisReport;
import draftwitness.diagnosis.EvidenceLine;
import draftwitness.diagnosis.NextCheck;
import draftwitness.diagnosis.RankedCause;
import draftwitness.diagnosis.Seen;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import org.jspecify.annotations.Nullable;

/** Writes findings, causes and checks for the screen. Pure. */
final class FindingsWriter {
    /** Causes less likely are not listed, and not more than so many. */
    private static final double LEAST = 0.02;

    private static final int MOST = 6;

    private FindingsWriter() {}

    /** What was seen: one row a kind, the gravest and then the earliest first. */
    static List<Findings.Seen> seen(CycleReport report) {
        Map<String, List<Finding>> byKind = new LinkedHashMap<>();
        report.findings().stream()
                .sorted(Comparator.comparing(Finding::severity).reversed())
                .forEach(f ->
                        byKind.computeIfAbsent(f.kind(), k -> new ArrayList<>()).add(f));
        List<Findings.Seen> rows = new ArrayList<>();
        byKind.forEach((kind, all) -> {
            Finding first = all.get(0);
            String word = Words.has("episode." + kind) ? Words.get("episode." + kind) : words(kind);
            String title = all.size() == 1 ? word : Words.get("findings.times", word, String.valueOf(all.size()));
            TimeSpan where =
                    first.endNanos() > first.startNanos() ? new TimeSpan(first.startNanos(), first.endNanos()) : null;
            rows.add(new Findings.Seen(title, HappeningsWriter.tone(first.severity()), first.text(), where));
        });
        return rows;
    }

    private static String words(String kind) {
        String spaced = kind.replace('-', ' ');
        return spaced.substring(0, 1).toUpperCase(Locale.ENGLISH) + spaced.substring(1);
    }

    static List<Findings.Cause> causes(DiagnosisReport report) {
        List<Findings.Cause> out = new ArrayList<>();
        for (RankedCause c : report.causes()) {
            if (out.size() < MOST && (c.probability() >= LEAST || out.isEmpty())) {
                boolean level = report.level().size() > 1
                        && report.level().stream()
                                .anyMatch(l -> l.id().equals(c.cause().id()));
                out.add(cause(c, level));
            }
        }
        return out;
    }

    private static Findings.Cause cause(RankedCause c, boolean level) {
        List<Findings.Why> why = new ArrayList<>();
        c.supporting().forEach(l -> why.add(why(l)));
        c.opposing().forEach(l -> why.add(why(l)));
        String share = Words.get(
                "cause.share", share(c.probability(), level), String.valueOf(Math.round(c.probability() * 100)));
        return new Findings.Cause(
                c.cause().id(),
                c.cause().name(),
                share,
                c.probability(),
                c.cause().meaning(),
                why,
                c.wouldChange());
    }

    private static String share(double p, boolean level) {
        if (p >= DiagnosisReport.CERTAIN) {
            return Words.get("cause.certain");
        }
        if (level) {
            return Words.get("cause.level");
        }
        return Words.get(p >= 0.5 ? "cause.likely" : p >= 0.1 ? "cause.possible" : "cause.unlikely");
    }

    private static Findings.Why why(EvidenceLine line) {
        double bits = Math.abs(line.bits());
        String strength = bits >= 3 ? "strong" : bits >= 1 ? "clear" : "weak";
        String side = line.bits() > 0 ? "for" : "against";
        return new Findings.Why(
                line.bits() > 0,
                Words.get("why." + side + "." + strength),
                line.text(),
                line.why() + source(line.source()),
                where(line.from()));
    }

    private static String source(String source) {
        String key = "why.source." + source;
        return Words.has(key) ? " " + Words.get(key) : "";
    }

    private static @Nullable TimeSpan where(List<Seen> from) {
        return from.isEmpty()
                ? null
                : new TimeSpan(from.get(0).startNanos(), from.get(0).endNanos());
    }

    static List<Findings.Check> checks(DiagnosisReport report) {
        return report.nextChecks().stream().map(FindingsWriter::check).toList();
    }

    private static Findings.Check check(NextCheck next) {
        Check c = next.check();
        String gain = next.gainBits() >= 0.6 ? "much" : next.gainBits() >= 0.2 ? "some" : "little";
        String hose = c.hose().isEmpty() ? "" : " " + Words.get("check.hose", c.hose());
        return new Findings.Check(
                c.id(),
                c.title(),
                Words.get("check.effort", String.valueOf(Math.round(c.minutes())), Words.get("check.gain." + gain)),
                c.text() + hose,
                String.join(" ", c.cautions()),
                c.outcomes().stream()
                        .map(o -> new Findings.Outcome(o.id(), o.text()))
                        .toList());
    }
}
