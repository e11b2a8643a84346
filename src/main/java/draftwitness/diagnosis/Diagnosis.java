package draftwitness.diagnosis;

import draftwitness.cycle.CycleReport;
import draftwitness.reading.Channel;
import draftwitness.setup.Setup;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;

/**
 * Weighs evidence. Pure; any thread.
 *
 * <p>How it works: causes exclude each other. Each kind of evidence gives one outcome for the whole session, however
 * many cycles showed it, because cycles of one furnace on one day are no independent witnesses. The table says how
 * often each outcome is to be expected under each cause; Bayes' rule multiplies these onto how common the causes are.
 * Three things keep it from being too sure: a floor under every likelihood, a weight below 1 on kinds that partly tell
 * the same, and evidence that a session cannot give is not counted at all, so that causes which the connected channels
 * cannot tell apart stay level. Checks use the same table: what a check would tell is its mutual information with the
 * cause.
 */
public final class Diagnosis {
    private final CauseTable table;
    private final double[] posterior;
    private final List<Evidence> seen;

    private Diagnosis(CauseTable table, List<Evidence> seen) {
        this.table = table;
        this.seen = seen;
        double[] logs = new double[table.causes().size()];
        for (int c = 0; c < logs.length; c++) {
            logs[c] = Math.log(table.prior().get(c));
        }
        for (Evidence e : seen) {
            CauseTable.Kind kind = table.kind(e.kind());
            double[][] chances = table.chances(kind);
            int outcome = kind.index(e.outcome());
            for (int c = 0; c < logs.length; c++) {
                logs[c] += kind.weight() * Math.log(chances[c][outcome]);
            }
        }
        posterior = Information.normalised(logs);
    }

    /**
     * What is likely wrong, and what to check next.
     *
     * @param channels of the session
     * @param setup what is known of the appliance
     * @param report what the furnace did
     * @param answers of checks, in any order; the last of a check counts
     */
    public static DiagnosisReport of(List<Channel> channels, Setup setup, CycleReport report, List<Answer> answers) {
        return of(CauseTable.standard(), new EvidenceFinder(channels, setup, report).find(), answers);
    }

    static DiagnosisReport of(CauseTable table, List<Evidence> observed, List<Answer> answers) {
        Map<String, Evidence> byKind = new LinkedHashMap<>();
        observed.forEach(e -> byKind.put(e.kind(), e));
        for (Answer a : answers) {
            CauseTable.Kind kind = table.kind(table.tells().getOrDefault(a.check(), a.check()));
            String text = kind.texts().get(kind.index(a.outcome()));
            // A person's own check of a thing counts instead of what the session showed of it.
            byKind.put(
                    kind.id(),
                    new Evidence(
                            kind.id(),
                            a.outcome(),
                            a.from().isEmpty() ? text : text + " (" + a.from() + ")",
                            List.of()));
        }
        return new Diagnosis(table, List.copyOf(byKind.values())).report();
    }

    private DiagnosisReport report() {
        List<NextCheck> next = nextChecks();
        List<RankedCause> ranked = new ArrayList<>();
        for (int c = 0; c < posterior.length; c++) {
            ranked.add(ranked(c));
        }
        ranked.sort(Comparator.comparingDouble((RankedCause r) -> -r.probability()));
        List<Cause> level = level(ranked);
        return new DiagnosisReport(ranked, next, Conclusion.of(ranked, next, level), level);
    }

    private RankedCause ranked(int c) {
        List<EvidenceLine> supporting = new ArrayList<>();
        List<EvidenceLine> opposing = new ArrayList<>();
        for (Evidence e : seen) {
            EvidenceLine line = line(c, e);
            if (line.bits() > 0.05) {
                supporting.add(line);
            } else if (line.bits() < -0.05) {
                opposing.add(line);
            }
        }
        supporting.sort(Comparator.comparingDouble(l -> -l.bits()));
        opposing.sort(Comparator.comparingDouble(EvidenceLine::bits));
        return new RankedCause(table.causes().get(c), posterior[c], supporting, opposing, wouldChange(c));
    }

    /** Weight of evidence: log2 of the chance under the cause over the chance under all others, by their priors. */
    private EvidenceLine line(int c, Evidence e) {
        CauseTable.Kind kind = table.kind(e.kind());
        double[][] chances = table.chances(kind);
        int outcome = kind.index(e.outcome());
        double others = 0;
        double mass = 0;
        for (int i = 0; i < chances.length; i++) {
            if (i != c) {
                others += table.prior().get(i) * chances[i][outcome];
                mass += table.prior().get(i);
            }
        }
        double bits = kind.weight() * Math.log(chances[c][outcome] / (others / mass)) / Math.log(2);
        CauseTable.Row row = kind.row(table.causes().get(c));
        return new EvidenceLine(e.kind(), e.outcome(), e.text(), bits, row.why(), row.source(), e.from());
    }

    /** Checks whose kind of evidence is not there yet, best first. */
    private List<NextCheck> nextChecks() {
        List<NextCheck> out = new ArrayList<>();
        for (double p : posterior) {
            if (p >= DiagnosisReport.CERTAIN) {
                return out;
            }
        }
        for (Check check : table.checks()) {
            CauseTable.Kind kind = table.kindOf(check);
            if (open(kind)) {
                double gain = Information.gainBits(posterior, table.chances(kind));
                if (gain > 0.005) {
                    out.add(new NextCheck(check, gain, text(check)));
                }
            }
        }
        out.sort(Comparator.comparingDouble((NextCheck n) -> -n.bitsPerMinute())
                .thenComparing(n -> n.check().id()));
        return out;
    }

    private boolean open(CauseTable.Kind kind) {
        return seen.stream().noneMatch(e -> e.kind().equals(kind.id()));
    }

    private static String text(Check check) {
        return check.text()
                + (check.hose().isEmpty() ? "" : " Hose: " + check.hose() + ".")
                + (check.cautions().isEmpty() ? "" : " Mind: " + String.join(" ", check.cautions()));
    }

    /** The open check whose likeliest outcome against the cause would take most of its probability. */
    private String wouldChange(int c) {
        String best = "";
        double most = 0.05;
        for (Check check : table.checks()) {
            CauseTable.Kind kind = table.kindOf(check);
            if (!open(kind)) {
                continue;
            }
            double[][] chances = table.chances(kind);
            for (int o = 0; o < kind.outcomes().size(); o++) {
                double[] column = column(chances, o);
                double after = Information.posterior(posterior, column)[c];
                double change = Math.abs(after - posterior[c]) * Information.outcomes(posterior, chances)[o];
                if (change > most) {
                    most = change;
                    best = check.title() + ": if " + kind.texts().get(o) + ", it goes to " + percent(after);
                }
            }
        }
        return best;
    }

    static String percent(double p) {
        return Math.round(100 * p) + " %";
    }

    private static double[] column(double[][] chances, int outcome) {
        double[] out = new double[chances.length];
        for (int i = 0; i < out.length; i++) {
            out[i] = chances[i][outcome];
        }
        return out;
    }

    /** Causes for which everything seen was as likely as for the first. */
    private List<Cause> level(List<RankedCause> ranked) {
        int first = table.causes().indexOf(ranked.get(0).cause());
        List<Cause> out = new ArrayList<>();
        for (RankedCause r : ranked) {
            int c = table.causes().indexOf(r.cause());
            boolean same = seen.stream().allMatch(e -> {
                CauseTable.Kind kind = table.kind(e.kind());
                double[][] chances = table.chances(kind);
                int o = kind.index(e.outcome());
                return Math.abs(Math.log(chances[c][o] / chances[first][o])) < 1e-9;
            });
            if (c == first || (same && !seen.isEmpty())) {
                out.add(r.cause());
            }
        }
        return out;
    }
}
