package draftwitness.diagnosis.guided;

import draftwitness.diagnosis.Answer;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/** What a result says to the diagnosis, and which measurement a check asks for. Pure. */
public final class GuidedAnswers {
    /** A collector that sees less than this share of the inducer's suction is called weak; our own choice. */
    private static final double WEAK_COLLECTOR = 0.3;

    private GuidedAnswers() {}

    /** The measurement that makes a check of the diagnosis; empty if it is made in another way, such as by looking. */
    public static Optional<GuidedKind> kindOf(String checkId) {
        return switch (checkId) {
            case "leak-down" -> Optional.of(GuidedKind.LEAK_DOWN);
            case "leak-down-parts" -> Optional.of(GuidedKind.LEAK_DOWN_PARTS);
            case "switch-ramp" -> Optional.of(GuidedKind.SWITCH_POINTS);
            case "two-tap", "collector-tap" -> Optional.of(GuidedKind.TWO_TAPS);
            case "manifold", "inlet" -> Optional.of(GuidedKind.GAS);
            case "vent-off" -> Optional.of(GuidedKind.VENT_ON_OFF);
            default -> Optional.empty();
        };
    }

    /** The answers that a result gives; none while it is undecided or could not be judged. */
    public static List<Answer> of(GuidedResult result) {
        List<Answer> out = new ArrayList<>();
        switch (result.kind()) {
            case LEAK_DOWN -> leakDown(result, out);
            case LEAK_DOWN_PARTS -> leakDownParts(result, out);
            case SWITCH_POINTS -> switchRamp(result, out);
            case TWO_TAPS -> twoTaps(result, out);
            case GAS -> gas(result, out);
            case VENT_ON_OFF -> vent(result, out);
            case STATIC_PRESSURE, BEFORE_AFTER -> {} // nothing that the table of causes asks for
        }
        return List.copyOf(out);
    }

    private static Answer answer(String check, String outcome, GuidedResult result) {
        return new Answer(check, outcome, "measured: " + result.verdict());
    }

    private static boolean decided(GuidedResult result) {
        return result.grade() != Grade.UNDECIDED && result.grade() != Grade.UNJUDGED;
    }

    private static void leakDown(GuidedResult r, List<Answer> out) {
        if (decided(r)) {
            out.add(answer("leak-down", r.grade() == Grade.FINE ? "holds" : "falls", r));
        }
    }

    private static void leakDownParts(GuidedResult r, List<Answer> out) {
        if (!decided(r)) {
            return;
        }
        boolean tube = r.figure("tube-leaks").isPresent();
        boolean diaphragm = r.figure("switch-leaks").isPresent();
        if (r.grade() == Grade.FINE) {
            out.add(answer("leak-down-parts", "both-hold", r));
        } else if (tube != diaphragm) {
            out.add(answer("leak-down-parts", tube ? "tube-falls" : "switch-falls", r));
        }
    }

    private static void switchRamp(GuidedResult r, List<Answer> out) {
        if (r.figure("erratic").isPresent()) {
            out.add(answer("switch-ramp", "erratic", r));
        } else if (decided(r)) {
            out.add(answer("switch-ramp", r.grade() == Grade.FINE ? "at-rating" : "off-rating", r));
        }
    }

    private static void twoTaps(GuidedResult r, List<Answer> out) {
        if (r.figure("switch-against-inducer").isPresent() && decided(r)) {
            boolean late = r.figure("lag")
                    .map(f -> f.value() - f.uncertainty() > TwoTaps.LATE_SECONDS)
                    .orElse(false);
            String outcome = r.grade() == Grade.FINE ? "equal" : late ? "slow" : "fraction";
            out.add(answer("two-tap", outcome, r));
        }
        if (r.figure("collector-against-inducer").isPresent()) {
            r.figure("ratio").ifPresent(f -> {
                if (f.value() - f.uncertainty() > WEAK_COLLECTOR) {
                    out.add(answer("collector-tap", "usual", r));
                } else if (f.value() + f.uncertainty() < WEAK_COLLECTOR) {
                    out.add(answer("collector-tap", "weak", r));
                }
            });
        }
    }

    private static void gas(GuidedResult r, List<Answer> out) {
        r.figure("manifold-off-plate").ifPresent(f -> {
            double off = Math.abs(f.value());
            if (off + f.uncertainty() <= GasPressures.MANIFOLD_BAND) {
                out.add(answer("manifold", "on-plate", r));
            } else if (off - f.uncertainty() > GasPressures.MANIFOLD_BAND) {
                out.add(answer("manifold", f.value() > 0 ? "high" : "low", r));
            }
        });
        r.figure("inlet-drop").ifPresent(f -> {
            if (f.value() + f.uncertainty() <= GasPressures.DROP_LIMIT) {
                out.add(answer("inlet", "holds", r));
            } else if (f.value() - f.uncertainty() > GasPressures.DROP_LIMIT) {
                out.add(answer("inlet", "sags", r));
            }
        });
    }

    private static void vent(GuidedResult r, List<Answer> out) {
        if (decided(r)) {
            out.add(answer("vent-off", r.grade() == Grade.FINE ? "unchanged" : "recovers", r));
        }
    }
}
