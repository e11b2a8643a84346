package draftwitness.cycle;

/**
 * One phase of a cycle.
 *
 * @param startNanos session time
 * @param endNanos session time, not before the start
 */
public record PhaseSpan(Phase phase, long startNanos, long endNanos) {
    public PhaseSpan {
        if (endNanos < startNanos) {
            throw new IllegalArgumentException(phase + " ends at " + endNanos + " ns, before " + startNanos);
        }
    }
}
