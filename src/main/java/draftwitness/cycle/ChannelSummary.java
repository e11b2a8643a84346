package draftwitness.cycle;

import draftwitness.reading.Channel;
import java.util.List;

/**
 * What one channel brought.
 *
 * @param channel which one
 * @param readings how many
 * @param periodNanos usual time between two readings, 0 when there are fewer than two
 * @param gaps times without readings, oldest first
 */
public record ChannelSummary(Channel channel, long readings, long periodNanos, List<Gap> gaps) {
    public ChannelSummary {
        gaps = List.copyOf(gaps);
    }
}
