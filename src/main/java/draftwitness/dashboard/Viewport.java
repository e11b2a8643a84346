package draftwitness.dashboard;

import org.jspecify.annotations.Nullable;

/**
 * Which part of a session the strips show. Immutable.
 *
 * @param lengthNanos how much time is shown; 0 for the whole session
 * @param heldFromNanos start of the part shown while held, or null while following the head (the newest reading, or the
 *     playhead of a recording)
 */
public record Viewport(long lengthNanos, @Nullable Long heldFromNanos) {
    /** Shortest and longest time shown when zooming: 50 ms to 31 days. */
    static final long SHORTEST_NANOS = 50_000_000L;

    static final long LONGEST_NANOS = 31L * 24 * 3_600_000_000_000L;

    /** Where the playhead of a recording stands while followed, as a share of the width. */
    private static final double PLAYHEAD_SHARE = 0.75;

    /** Free part to the right of the newest reading. */
    private static final double LIVE_MARGIN = 0.02;

    public Viewport {
        if (lengthNanos < 0 || (lengthNanos > 0 && lengthNanos < SHORTEST_NANOS)) {
            throw new IllegalArgumentException("cannot show " + lengthNanos + " ns");
        }
    }

    /** Follows the head. */
    public static Viewport following(SpanChoice span) {
        return new Viewport(span.nanos(), null);
    }

    public boolean isFollowing() {
        return heldFromNanos == null;
    }

    /**
     * The time to show.
     *
     * @param extent the session so far
     * @param headNanos the newest moment of a live session, or the playhead of a recording
     * @param live true for a live session
     */
    public TimeSpan window(TimeSpan extent, long headNanos, boolean live) {
        if (lengthNanos == 0) {
            long to = Math.max(extent.toNanos(), extent.fromNanos() + SHORTEST_NANOS);
            return new TimeSpan(extent.fromNanos(), to);
        }
        if (heldFromNanos != null) {
            return new TimeSpan(heldFromNanos, heldFromNanos + lengthNanos);
        }
        double share = live ? 1 - LIVE_MARGIN : PLAYHEAD_SHARE;
        long from = headNanos - Math.round(lengthNanos * share);
        if (!live) {
            from = Math.min(from, extent.toNanos() - lengthNanos);
        }
        from = Math.max(from, extent.fromNanos());
        return new TimeSpan(from, from + lengthNanos);
    }

    /** Follows the head again, with the same length. */
    public Viewport follow() {
        return new Viewport(lengthNanos, null);
    }

    /** Stays at a part of the session. */
    public Viewport hold(TimeSpan shown) {
        long length = Math.max(SHORTEST_NANOS, Math.min(LONGEST_NANOS, shown.lengthNanos()));
        return new Viewport(length, shown.fromNanos());
    }

    /**
     * Shows more (factor above 1) or less time, with one moment staying where it is on screen.
     *
     * @param shown what is shown now
     */
    public Viewport zoom(TimeSpan shown, double factor, long anchorNanos) {
        double wanted = shown.lengthNanos() * factor;
        long length = Math.round(Math.max(SHORTEST_NANOS, Math.min(LONGEST_NANOS, wanted)));
        double share = (anchorNanos - shown.fromNanos()) / (double) Math.max(1, shown.lengthNanos());
        return new Viewport(length, anchorNanos - Math.round(length * share));
    }
}
