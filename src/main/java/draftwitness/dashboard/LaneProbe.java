package draftwitness.dashboard;

import org.jspecify.annotations.Nullable;

/**
 * What cursor and measure say about one lane.
 *
 * @param reading the reading at the cursor, or null
 * @param readingText it with its unit, or the state of a contact; empty when there is none
 * @param measureText difference, slope and extremes between the two points measured; empty when nothing is measured
 */
public record LaneProbe(@Nullable Sample reading, String readingText, String measureText) {
    /** Neither cursor nor measure. */
    public static final LaneProbe NONE = new LaneProbe(null, "", "");
}
