package draftwitness.diagnosis;

import java.util.List;
import java.util.stream.Collectors;

/** Puts a diagnosis into words. Never asks for a part to be replaced while other causes are open. Pure. */
final class Conclusion {
    private Conclusion() {}

    static String of(List<RankedCause> ranked, List<NextCheck> next, List<Cause> level) {
        RankedCause first = ranked.get(0);
        StringBuilder out = new StringBuilder();
        if (first.probability() >= DiagnosisReport.CERTAIN) {
            out.append(first.cause().name())
                    .append(", ")
                    .append(Diagnosis.percent(first.probability()))
                    .append(". ");
            out.append(first.cause().remedy());
        } else {
            out.append(
                    ranked.stream()
                                    .allMatch(r -> r.supporting().isEmpty()
                                            && r.opposing().isEmpty())
                            ? "Nothing was seen that tells; this is only how common causes are: "
                            : "Not settled. Most likely: ");
            out.append(ranked.stream()
                    .limit(3)
                    .filter(r -> r.probability() >= 0.05)
                    .map(r -> r.cause().name() + " " + Diagnosis.percent(r.probability()))
                    .collect(Collectors.joining(", ")));
            out.append('.');
            if (level.size() > 1) {
                out.append(" What was measured cannot tell apart: ")
                        .append(level.stream().map(Cause::name).collect(Collectors.joining(", ")))
                        .append('.');
            }
            if (!next.isEmpty()) {
                out.append(" Next: ").append(next.get(0).check().title()).append('.');
            }
            if (ranked.stream().limit(3).anyMatch(r -> r.cause().id().startsWith("switch-"))) {
                out.append(" Do not replace the pressure switch on this: other causes are open.");
            }
        }
        if (ranked.stream().anyMatch(r -> r.cause().danger() && r.probability() >= 0.2)) {
            out.append(" Leave the appliance off until this is ruled out or made safe.");
        }
        return out.toString();
    }
}
