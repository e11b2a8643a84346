package draftwitness.diagnosis;

import org.jspecify.annotations.Nullable;

/**
 * Where in a session a piece of evidence comes from.
 *
 * @param cycle index of the cycle, 0 when it belongs to none
 * @param role the tap it was read at, or null when several
 * @param startNanos session time
 * @param endNanos session time, not before the start
 */
public record Seen(int cycle, @Nullable String role, long startNanos, long endNanos) {
    public Seen {
        if (endNanos < startNanos) {
            throw new IllegalArgumentException("seen until " + endNanos + " ns, before " + startNanos);
        }
    }
}
