package draftwitness.diagnosis;

import java.util.List;

/**
 * What is likely wrong, and what to check next.
 *
 * @param causes all causes, most likely first; probabilities sum to 1
 * @param nextChecks best first by bits a minute; empty only when one cause has {@value #CERTAIN} or more, or no check
 *     is left that could tell anything
 * @param conclusion two or three sentences for a person
 * @param level causes that what was measured cannot tell apart from the most likely one, itself included; one when none
 */
public record DiagnosisReport(
        List<RankedCause> causes, List<NextCheck> nextChecks, String conclusion, List<Cause> level) {
    /** From this probability on no further check is asked for. */
    public static final double CERTAIN = 0.9;

    public DiagnosisReport {
        causes = List.copyOf(causes);
        nextChecks = List.copyOf(nextChecks);
        level = List.copyOf(level);
    }

    /** The most likely cause. */
    public RankedCause first() {
        return causes.get(0);
    }

    /**
     * The probability of a cause.
     *
     * @throws IllegalArgumentException if there is no such cause
     */
    public double probability(String causeId) {
        return causes.stream()
                .filter(c -> c.cause().id().equals(causeId))
                .findFirst()
                .orElseThrow(() -> new IllegalArgumentException("no cause '" + causeId + "'"))
                .probability();
    }
}
