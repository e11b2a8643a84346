package draftwitness.dashboard;

import java.time.Instant;
import java.time.ZoneId;
import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * Everything that the lanes and the overview show at one moment. Immutable; any thread paints it.
 *
 * @param window the time that the strips show
 * @param extent the whole session
 * @param headNanos the newest moment of a live session, or the playhead of a recording
 * @param live true for a live session
 * @param start wall-clock instant of session time 0, or null when unknown
 * @param zone for times of day
 * @param lanes top to bottom
 * @param pointing cursor and measure
 * @param overview the most telling channel over the whole session, or null when there is none
 * @param happenings what the furnace did
 */
public record ChartFrame(
        TimeSpan window,
        TimeSpan extent,
        long headNanos,
        boolean live,
        @Nullable Instant start,
        ZoneId zone,
        List<LaneFrame> lanes,
        Pointing pointing,
        @Nullable LaneFrame overview,
        Happenings happenings) {
    public ChartFrame {
        lanes = List.copyOf(lanes);
    }

    /** The same frame with what the furnace did. */
    ChartFrame with(Happenings told) {
        return new ChartFrame(window, extent, headNanos, live, start, zone, lanes, pointing, overview, told);
    }

    /** A frame of nothing. */
    public static ChartFrame empty(ZoneId zone) {
        TimeSpan minute = new TimeSpan(0, SpanChoice.MINUTE_1.nanos());
        return new ChartFrame(minute, minute, 0, false, null, zone, List.of(), Pointing.NONE, null, Happenings.NONE);
    }
}
