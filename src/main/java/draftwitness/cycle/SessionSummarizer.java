package draftwitness.cycle;

import draftwitness.reading.Block;
import draftwitness.reading.SessionHeader;
import draftwitness.reading.SessionListener;
import draftwitness.reading.Slice;
import draftwitness.reading.SourceEvent;
import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * Makes a {@link SessionSummary} of a session as it goes by. One owner thread; no result depends on how blocks are cut.
 */
public final class SessionSummarizer implements SessionListener {
    private final List<ChannelTracker> trackers = new ArrayList<>();
    private @Nullable SessionHeader header;

    @Override
    public void begin(SessionHeader begun) {
        header = begun;
        trackers.clear();
        begun.channels().forEach(c -> trackers.add(new ChannelTracker(c)));
    }

    @Override
    public void slice(Slice slice) {
        for (SourceEvent event : slice.events()) {
            for (ChannelTracker t : trackers) {
                if (t.channel().sourceId().equals(event.sourceId())) {
                    if (event.state().interrupts()) {
                        t.away(event.timeNanos());
                    } else {
                        t.back(event.timeNanos());
                    }
                }
            }
        }
        for (Block block : slice.blocks()) {
            for (ChannelTracker t : trackers) {
                if (t.channel().tap() == block.channel().tap()) {
                    t.add(block);
                }
            }
        }
    }

    @Override
    public void end() {
        // Everything is known at any time; see summary().
    }

    /** What the session holds so far. */
    public SessionSummary summary() {
        long first = trackers.stream()
                .filter(ChannelTracker::hasReadings)
                .mapToLong(ChannelTracker::firstNanos)
                .min()
                .orElse(0);
        long last = trackers.stream()
                .filter(ChannelTracker::hasReadings)
                .mapToLong(ChannelTracker::lastNanos)
                .max()
                .orElse(0);
        return new SessionSummary(
                header,
                first,
                last,
                trackers.stream().map(t -> t.summary(first, last)).toList());
    }
}
