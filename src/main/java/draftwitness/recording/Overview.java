package draftwitness.recording;

import draftwitness.reading.Channel;
import java.util.ArrayList;
import java.util.List;

/**
 * One channel's readings summed up in buckets of equal width, oldest first; buckets without readings are left out.
 * Immutable; any thread. Values are in the base unit of the channel's quantity, pascal for pressures.
 */
public final class Overview {
    private final Channel channel;
    private final long widthNanos;
    private final long[] bucket;
    private final long[] readings;
    private final double[] first;
    private final double[] last;
    private final double[] min;
    private final double[] max;
    private final int size;

    /** Joins entries of the same bucket, which follow one another, whatever their steps. */
    Overview(Channel channel, long widthNanos, List<Buckets.Entry> entries) {
        this.channel = channel;
        this.widthNanos = widthNanos;
        int n = entries.size();
        bucket = new long[n];
        readings = new long[n];
        first = new double[n];
        last = new double[n];
        min = new double[n];
        max = new double[n];
        int at = -1;
        for (Buckets.Entry e : entries) {
            double low = e.step.inBase(e.min);
            double high = e.step.inBase(e.max);
            if (at < 0 || bucket[at] != e.bucket) {
                at++;
                bucket[at] = e.bucket;
                first[at] = e.step.inBase(e.first);
                min[at] = low;
                max[at] = high;
            }
            min[at] = Math.min(min[at], low);
            max[at] = Math.max(max[at], high);
            last[at] = e.step.inBase(e.last);
            readings[at] += e.readings;
        }
        size = at + 1;
    }

    public Channel channel() {
        return channel;
    }

    /** Number of buckets that have readings. */
    public int size() {
        return size;
    }

    /** Width of every bucket, in nanoseconds. */
    public long widthNanos() {
        return widthNanos;
    }

    /** Session time at which bucket {@code i} begins, in nanoseconds. */
    public long fromNanos(int i) {
        return bucket[i] * widthNanos;
    }

    /** Number of readings in bucket {@code i}, at least 1. */
    public long readings(int i) {
        return readings[i];
    }

    /** Earliest reading of bucket {@code i}. */
    public double first(int i) {
        return first[i];
    }

    /** Latest reading of bucket {@code i}. */
    public double last(int i) {
        return last[i];
    }

    public double min(int i) {
        return min[i];
    }

    public double max(int i) {
        return max[i];
    }

    /** Times at which the buckets begin, for tests and logs. */
    @Override
    public String toString() {
        List<String> texts = new ArrayList<>();
        for (int i = 0; i < Math.min(size, 5); i++) {
            texts.add(fromNanos(i) + " ns: " + min[i] + ".." + max[i]);
        }
        return channel.tap().role() + texts + " of " + size;
    }
}
