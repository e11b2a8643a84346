package draftwitness.dashboard;

/**
 * A span of session time, {@code fromNanos} inclusive to {@code toNanos} exclusive.
 *
 * @param fromNanos start, in nanoseconds from the session's start
 * @param toNanos end; not before {@code fromNanos}
 */
public record TimeSpan(long fromNanos, long toNanos) {
    public TimeSpan {
        if (toNanos < fromNanos) {
            throw new IllegalArgumentException("span ends at " + toNanos + " ns, before it starts at " + fromNanos);
        }
    }

    public long lengthNanos() {
        return toNanos - fromNanos;
    }

    public boolean contains(long nanos) {
        return nanos >= fromNanos && nanos < toNanos;
    }
}
