package draftwitness.cycle;

import draftwitness.reading.SessionHeader;
import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * What a session holds, before any question of what the furnace did.
 *
 * @param header what the session is made of; null if it never began
 * @param firstNanos session time of the first reading of any channel; 0 when there is none
 * @param lastNanos session time of the last reading of any channel; 0 when there is none
 * @param channels in the session's order
 */
public record SessionSummary(
        @Nullable SessionHeader header, long firstNanos, long lastNanos, List<ChannelSummary> channels) {
    public SessionSummary {
        channels = List.copyOf(channels);
    }

    /** Last minus first reading, in nanoseconds. */
    public long durationNanos() {
        return lastNanos - firstNanos;
    }
}
