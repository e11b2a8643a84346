package draftwitness.recording;

import draftwitness.reading.Channel;
import java.util.Arrays;

/**
 * The readings of one channel in a window, oldest first. Immutable; any thread.
 *
 * <p>Times are nanoseconds from the session's start, strictly increasing; values are in the base unit of the channel's
 * quantity, pascal for pressures, suction negative.
 */
public final class Series {
    private final Channel channel;
    private final long[] timesNanos;
    private final double[] values;

    Series(Channel channel, long[] timesNanos, double[] values) {
        this.channel = channel;
        this.timesNanos = timesNanos;
        this.values = values;
    }

    public Channel channel() {
        return channel;
    }

    public int size() {
        return values.length;
    }

    /** Session time of reading {@code i}, in nanoseconds. */
    public long timeNanos(int i) {
        return timesNanos[i];
    }

    /** Reading {@code i} in the base unit. */
    public double value(int i) {
        return values[i];
    }

    /** A copy of all times, in nanoseconds. */
    public long[] timesNanos() {
        return timesNanos.clone();
    }

    /** A copy of all values, in the base unit. */
    public double[] values() {
        return values.clone();
    }

    @Override
    public String toString() {
        return channel.tap().role() + Arrays.toString(Arrays.copyOf(values, Math.min(5, values.length))) + " of "
                + values.length;
    }
}
