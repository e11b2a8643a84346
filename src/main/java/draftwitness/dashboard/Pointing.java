package draftwitness.dashboard;

import org.jspecify.annotations.Nullable;

/**
 * Where the cursor is and what is being measured. Immutable.
 *
 * @param cursorNanos moment under the pointer, or null
 * @param fromNanos first point of a measurement, or null
 * @param toNanos second point, or null while only the first is set: then the cursor is the second
 */
public record Pointing(
        @Nullable Long cursorNanos,
        @Nullable Long fromNanos,
        @Nullable Long toNanos) {
    /** Nothing pointed at. */
    public static final Pointing NONE = new Pointing(null, null, null);

    Pointing at(@Nullable Long nanos) {
        return new Pointing(nanos, fromNanos, toNanos);
    }

    /** Sets the first point, or the second when the first is waiting for it; a third begins anew. */
    Pointing mark() {
        if (cursorNanos == null) {
            return this;
        }
        return fromNanos == null || toNanos != null
                ? new Pointing(cursorNanos, cursorNanos, null)
                : new Pointing(cursorNanos, fromNanos, cursorNanos);
    }

    /** Measures between two points. */
    Pointing between(long from, long to) {
        return new Pointing(to, from, to);
    }

    Pointing withoutMeasure() {
        return new Pointing(cursorNanos, null, null);
    }

    /** The span measured, or null; the earlier point first. */
    public @Nullable TimeSpan measured() {
        Long end = toNanos == null ? cursorNanos : toNanos;
        if (fromNanos == null || end == null) {
            return null;
        }
        return new TimeSpan(Math.min(fromNanos, end), Math.max(fromNanos, end));
    }
}
