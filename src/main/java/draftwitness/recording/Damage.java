package draftwitness.recording;

/**
 * One thing that is wrong with a recording.
 *
 * @param part which part of the file it concerns
 * @param row the row's key in its table, or -1 when it is not one row
 * @param fromNanos session time where it begins
 * @param toNanos session time where it ends (exclusive); equal to {@code fromNanos} when it is not a span
 * @param text what is wrong, one line
 */
public record Damage(Part part, long row, long fromNanos, long toNanos, String text) {

    /** Parts of a recording. */
    public enum Part {
        /** The session's header: what was connected, setup, software. */
        HEADER,
        /** The database around the rows. */
        DATABASE,
        /** A row with readings. */
        STRETCH,
        /** A row with readings that should be there and is not. */
        MISSING,
        /** A source's event. */
        EVENT,
        /** A note or bookmark; readings are not concerned. */
        NOTE,
        /** The overview; it can be made anew from the readings. */
        OVERVIEW,
        /** The end of a finished recording does not agree with what it says it holds. */
        END
    }
}
