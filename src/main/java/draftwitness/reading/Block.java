package draftwitness.reading;

import java.util.Arrays;
import org.jspecify.annotations.Nullable;

/**
 * Some successive readings of one channel: times and whole counts of one {@link Step}. Immutable; at least one reading.
 *
 * <p>Times are nanoseconds from the session's start, strictly increasing. The value of reading {@code i} is
 * {@code step.inBase(count(i))}, pascal for pressures.
 *
 * <p>A time is when the last byte of the reading arrived, unless the block {@link #hasArrivals() keeps arrivals} beside
 * it: then it is when the instrument took the sample, as computed from its own pace, and the arrival is kept so that it
 * can be computed again.
 */
public final class Block {
    private final Channel channel;
    private final Step step;
    private final long[] timesNanos;
    private final long[] counts;
    private final long @Nullable [] arrivalsNanos;
    private final long @Nullable [] counters;

    /** Counter of a reading whose message carried none. */
    public static final long NO_COUNTER = -1;

    /**
     * Copies both arrays ({@code n} readings each, oldest first).
     *
     * @throws IllegalArgumentException if they differ in length, are empty, or times do not strictly increase
     */
    public Block(Channel channel, Step step, long[] timesNanos, long[] counts) {
        this(channel, step, timesNanos, counts, null, null);
    }

    /**
     * Copies all arrays ({@code n} readings each, oldest first).
     *
     * @param arrivalsNanos when each reading arrived, or null if the times are the arrivals
     * @param counters the instrument's own message counter as it came, {@link #NO_COUNTER} where there was none; null
     *     if no reading has one
     * @throws IllegalArgumentException if they differ in length, are empty, or times do not strictly increase
     */
    public Block(
            Channel channel,
            Step step,
            long[] timesNanos,
            long[] counts,
            long @Nullable [] arrivalsNanos,
            long @Nullable [] counters) {
        if (timesNanos.length != counts.length || counts.length == 0) {
            throw new IllegalArgumentException(timesNanos.length + " times for " + counts.length + " counts");
        }
        checkBeside("arrivals", arrivalsNanos, counts.length);
        checkBeside("counters", counters, counts.length);
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
        this.arrivalsNanos = arrivalsNanos == null ? null : arrivalsNanos.clone();
        this.counters = counters == null ? null : counters.clone();
    }

    private static void checkBeside(String what, long @Nullable [] beside, int size) {
        if (beside != null && beside.length != size) {
            throw new IllegalArgumentException(beside.length + " " + what + " for " + size + " counts");
        }
    }

    /** Readings {@code from} (inclusive) to {@code end} with so many counts taken off each; beyond long, as it was. */
    Block lowered(int from, int end, long counts) {
        long[] lowered = Arrays.copyOfRange(this.counts, from, end);
        for (int i = 0; i < lowered.length; i++) {
            long less = lowered[i] - counts;
            boolean overflow = ((lowered[i] ^ counts) & (lowered[i] ^ less)) < 0;
            lowered[i] = overflow ? lowered[i] : less;
        }
        return new Block(
                channel,
                step,
                Arrays.copyOfRange(timesNanos, from, end),
                lowered,
                arrivalsNanos == null ? null : Arrays.copyOfRange(arrivalsNanos, from, end),
                counters == null ? null : Arrays.copyOfRange(counters, from, end));
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

    /** True if times are computed sample times, with the arrivals kept beside them; false if times are arrivals. */
    public boolean hasArrivals() {
        return arrivalsNanos != null;
    }

    /** When reading {@code i} arrived, in nanoseconds of session time. */
    public long arrivalNanos(int i) {
        return arrivalsNanos == null ? timesNanos[i] : arrivalsNanos[i];
    }

    /** True if at least one reading carries the instrument's own counter. */
    public boolean hasCounters() {
        return counters != null;
    }

    /** The instrument's own counter in the message of reading {@code i}, as it came; or {@link #NO_COUNTER}. */
    public long counter(int i) {
        return counters == null ? NO_COUNTER : counters[i];
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
                && Arrays.equals(counts, b.counts)
                && Arrays.equals(arrivalsNanos, b.arrivalsNanos)
                && Arrays.equals(counters, b.counters);
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
