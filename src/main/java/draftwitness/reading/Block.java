package draftwitness.reading;

import java.util.Arrays;

/**
 * Some successive readings of one channel: times and whole counts of one {@link Step}. Immutable; at least one reading.
 *
 * <p>Times are nanoseconds from the session's start, strictly increasing. The value of reading {@code i} is
 * {@code step.inBase(count(i))}, pascal for pressures.
 */
public final class Block {
    private final Channel channel;
    private final Step step;
    private final long[] timesNanos;
    private final long[] counts;

    /**
     * Copies both arrays ({@code n} readings each, oldest first).
     *
     * @throws IllegalArgumentException if they differ in length, are empty, or times do not strictly increase
     */
    public Block(Channel channel, Step step, long[] timesNanos, long[] counts) {
        if (timesNanos.length != counts.length || counts.length == 0) {
            throw new IllegalArgumentException(timesNanos.length + " times for " + counts.length + " counts");
        }
        for (int i = 1; i < timesNanos.length; i++) {
            if (timesNanos[i] <= timesNanos[i - 1]) {
                throw new IllegalArgumentException(
                        "time " + timesNanos[i] + " ns does not follow " + timesNanos[i - 1]);
            }
        }
        if (step.unit().quantity() != channel.tap().quantity()) {
            throw new IllegalArgumentException(
                    step.unit().symbol() + " cannot be read at " + channel.tap().role());
        }
        this.channel = channel;
        this.step = step;
        this.timesNanos = timesNanos.clone();
        this.counts = counts.clone();
    }

    public Channel channel() {
        return channel;
    }

    public Step step() {
        return step;
    }

    /** Number of readings, at least 1. */
    public int size() {
        return counts.length;
    }

    /** Session time of reading {@code i}, in nanoseconds. */
    public long timeNanos(int i) {
        return timesNanos[i];
    }

    /** Reading {@code i} in counts of {@link #step()}. */
    public long count(int i) {
        return counts[i];
    }

    /** Reading {@code i} in the base unit of the channel's quantity: pascal for pressures, suction negative. */
    public double value(int i) {
        return step.inBase(counts[i]);
    }

    public long firstNanos() {
        return timesNanos[0];
    }

    public long lastNanos() {
        return timesNanos[timesNanos.length - 1];
    }

    @Override
    public boolean equals(Object o) {
        return o instanceof Block b
                && channel.equals(b.channel)
                && step.equals(b.step)
                && Arrays.equals(timesNanos, b.timesNanos)
                && Arrays.equals(counts, b.counts);
    }

    @Override
    public int hashCode() {
        return 31 * (31 * channel.hashCode() + Arrays.hashCode(timesNanos)) + Arrays.hashCode(counts);
    }

    @Override
    public String toString() {
        return channel.tap().role() + "[" + size() + " from " + firstNanos() + " ns, " + step.decimals() + " decimals "
                + step.unit().symbol() + "]";
    }
}
