package draftwitness.cycle;

import java.util.List;

/**
 * What the furnace did so far.
 *
 * @param cycles in order; the last may be provisional
 * @param findings by start time
 * @param lockouts from giving up until the next start
 */
public record CycleReport(List<Cycle> cycles, List<Finding> findings, List<Gap> lockouts) {
    public CycleReport {
        cycles = List.copyOf(cycles);
        findings = List.copyOf(findings);
        lockouts = List.copyOf(lockouts);
    }
}
