package draftwitness.cycle;

import draftwitness.reading.Block;
import draftwitness.reading.Channel;
import draftwitness.reading.Quantity;
import java.util.ArrayList;
import java.util.List;

/**
 * Counts one channel's readings and finds its gaps. One owner thread.
 *
 * <p>A gap is a pause of more than {@value #GAP_PERIODS} usual periods and more than a second. The usual period is the
 * median interval of the whole session, so candidates are kept until it is asked for; those that the median so far
 * rules out clearly are dropped now and then, which keeps memory bounded for slow instruments. A contact's state holds
 * while nothing is sent, so a contact has a gap only while its source was away.
 */
final class ChannelTracker {
    private static final int GAP_PERIODS = 5;
    private static final long GAP_FLOOR_NANOS = 1_000_000_000;
    private static final int PRUNE_AT = 8192;

    private final Channel channel;
    private final boolean contact;
    private final IntervalHistogram intervals = new IntervalHistogram();
    private final List<Gap> candidates = new ArrayList<>();
    private int pruneAt = PRUNE_AT;
    private long readings;
    private long first;
    private long last;
    private long awaySince = Long.MIN_VALUE;

    ChannelTracker(Channel channel) {
        this.channel = channel;
        this.contact = channel.tap().quantity() == Quantity.CONTACT;
    }

    Channel channel() {
        return channel;
    }

    boolean hasReadings() {
        return readings > 0;
    }

    long firstNanos() {
        return first;
    }

    long lastNanos() {
        return last;
    }

    void add(Block block) {
        for (int i = 0; i < block.size(); i++) {
            add(block.timeNanos(i));
        }
    }

    private void add(long timeNanos) {
        if (readings == 0) {
            first = timeNanos;
        } else if (!contact) {
            intervals.add(timeNanos - last);
            if (timeNanos - last > GAP_FLOOR_NANOS) {
                candidate(new Gap(last, timeNanos));
            }
        }
        last = timeNanos;
        readings++;
    }

    private void candidate(Gap gap) {
        candidates.add(gap);
        if (candidates.size() >= pruneAt) {
            long clearlyNone = 2 * intervals.medianNanos();
            candidates.removeIf(g -> g.endNanos() - g.startNanos() < clearlyNone);
            pruneAt = Math.max(PRUNE_AT, 2 * candidates.size());
        }
    }

    /** The channel's source is away from now on. */
    void away(long timeNanos) {
        if (awaySince == Long.MIN_VALUE) {
            awaySince = timeNanos;
        }
    }

    /** The channel's source is there again, or the session ends. */
    void back(long timeNanos) {
        if (contact && awaySince != Long.MIN_VALUE && timeNanos - awaySince > GAP_FLOOR_NANOS) {
            candidates.add(new Gap(awaySince, timeNanos));
        }
        awaySince = Long.MIN_VALUE;
    }

    /** What is known so far of a session whose readings reach from {@code sessionFirst} to {@code sessionLast}. */
    ChannelSummary summary(long sessionFirst, long sessionLast) {
        if (contact) {
            List<Gap> gaps = new ArrayList<>(candidates);
            if (awaySince != Long.MIN_VALUE && sessionLast - awaySince > GAP_FLOOR_NANOS) {
                gaps.add(new Gap(awaySince, sessionLast));
            }
            return new ChannelSummary(channel, readings, 0, gaps);
        }
        long period = intervals.medianNanos();
        List<Gap> gaps = new ArrayList<>();
        if (readings == 0) {
            addGap(gaps, sessionFirst, sessionLast, 0);
        } else {
            addGap(gaps, sessionFirst, first, period);
            candidates.forEach(g -> addGap(gaps, g.startNanos(), g.endNanos(), period));
            addGap(gaps, last, sessionLast, period);
        }
        return new ChannelSummary(channel, readings, period, gaps);
    }

    private static void addGap(List<Gap> gaps, long start, long end, long period) {
        if (end - start > GAP_FLOOR_NANOS && end - start > GAP_PERIODS * period) {
            gaps.add(new Gap(start, end));
        }
    }
}
