package draftwitness.diagnosis;

import java.util.List;

/**
 * How likely one cause is, and why.
 *
 * @param probability 0 to 1; over all causes they sum to 1
 * @param supporting evidence for it, strongest first
 * @param opposing evidence against it, strongest first
 * @param wouldChange the check that could move it most, in words; empty if none could
 */
public record RankedCause(
        Cause cause,
        double probability,
        List<EvidenceLine> supporting,
        List<EvidenceLine> opposing,
        String wouldChange) {
    public RankedCause {
        if (!(probability >= 0 && probability <= 1)) {
            throw new IllegalArgumentException(cause.id() + " has probability " + probability);
        }
        supporting = List.copyOf(supporting);
        opposing = List.copyOf(opposing);
    }

    /** What was seen that speaks for it, strongest first, one sentence each. */
    public List<String> because() {
        return supporting.stream().map(EvidenceLine::text).toList();
    }
}
