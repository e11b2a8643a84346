package draftwitness.cycle;

/**
 * A time without readings of a channel, where there should have been some.
 *
 * @param startNanos last reading before it, session time
 * @param endNanos first reading after it, session time
 */
public record Gap(long startNanos, long endNanos) {
    public Gap {
        if (endNanos <= startNanos) {
            throw new IllegalArgumentException("gap ends at " + endNanos + " ns, not after " + startNanos);
        }
    }
}
