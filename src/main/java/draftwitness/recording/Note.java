package draftwitness.recording;

import java.time.Instant;

/**
 * A remark or bookmark that a person put on a recording.
 *
 * @param id stays the same while the note is changed
 * @param fromNanos session time that it is about
 * @param toNanos end of the span that it is about; equal to {@code fromNanos} for a moment
 * @param text what was remarked; empty for a plain bookmark
 * @param written when it was written or last changed
 */
public record Note(long id, long fromNanos, long toNanos, String text, Instant written) {
    public Note {
        if (toNanos < fromNanos) {
            throw new IllegalArgumentException("a note from " + fromNanos + " to " + toNanos + " ns");
        }
    }
}
