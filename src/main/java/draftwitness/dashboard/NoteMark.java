package draftwitness.dashboard;

/**
 * A note at a moment, as the screen shows it.
 *
 * @param id stays the same while the note is changed
 * @param fromNanos session time that it is about
 * @param toNanos end of the span that it is about; equal to {@code fromNanos} for a moment
 * @param text what was remarked
 */
public record NoteMark(long id, long fromNanos, long toNanos, String text) {
    public NoteMark {
        if (toNanos < fromNanos) {
            throw new IllegalArgumentException("a note from " + fromNanos + " to " + toNanos + " ns");
        }
    }
}
