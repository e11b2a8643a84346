package draftwitness.cycle;

import draftwitness.reading.Tap;
import org.jspecify.annotations.Nullable;

/**
 * A span of time worth a person's attention.
 *
 * @param startNanos session time
 * @param endNanos session time, not before the start
 * @param phase the phase it begins in, or null outside a cycle
 * @param tap where it was seen
 * @param text in plain words: which readings, which rule, which setting
 */
public record Episode(
        EpisodeKind kind,
        long startNanos,
        long endNanos,
        @Nullable Phase phase,
        Tap tap,
        Evidence evidence,
        String text) {
    public Episode {
        if (endNanos < startNanos) {
            throw new IllegalArgumentException(kind + " ends at " + endNanos + " ns, before " + startNanos);
        }
    }
}
