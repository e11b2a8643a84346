package draftwitness.capture;

import draftwitness.reading.Tap;
import draftwitness.reading.ZeroOffset;
import java.util.Arrays;
import java.util.Locale;
import java.util.Optional;

/**
 * Judges five seconds of readings taken with both ports open to air: steady enough to be an instrument's zero, or not.
 * Pure; one owner thread.
 *
 * <p>Accepted if there are at least {@value #FEWEST} readings without a pause of 1.5 s over the whole time; their
 * spread, 1.4826 times the median absolute deviation (the standard deviation, were they normal), is at most
 * {@value #MOST_SPREAD} Pa; the medians of both halves differ by at most {@value #MOST_DRIFT} Pa; none is further than
 * {@value #MOST_STRAY} Pa from the median; and the median is within {@value #MOST_OFFSET} Pa. The limits are our own
 * choice.
 */
public final class ZeroCheck {
    /** How long both ports stay open: 5 s. */
    public static final long LENGTH_NANOS = 5_000_000_000L;

    static final int FEWEST = 5;
    static final double MOST_SPREAD = 1;
    static final double MOST_DRIFT = 0.5;
    static final double MOST_STRAY = 5;
    static final double MOST_OFFSET = 50;

    private static final long MOST_PAUSE_NANOS = 1_500_000_000L;
    private static final double MAD_TO_SIGMA = 1.4826;

    private final Tap tap;
    private final long startNanos;
    private double[] values = new double[256];
    private int size;
    private long lastNanos;
    private boolean paused;

    /** Starts at a session time. */
    public ZeroCheck(Tap tap, long startNanos) {
        this.tap = tap;
        this.startNanos = startNanos;
        this.lastNanos = startNanos;
    }

    /**
     * The judgement.
     *
     * @param zero the offset, if the readings were steady
     * @param why in plain words why not; empty if they were
     */
    public record Result(Optional<ZeroOffset> zero, String why) {}

    /** Takes a reading in pascal; those outside the five seconds are left out. */
    public void add(long timeNanos, double pascals) {
        if (timeNanos < startNanos || timeNanos >= startNanos + LENGTH_NANOS) {
            return;
        }
        paused |= timeNanos - lastNanos > MOST_PAUSE_NANOS;
        lastNanos = timeNanos;
        if (size == values.length) {
            values = Arrays.copyOf(values, 2 * size);
        }
        values[size++] = pascals;
    }

    /** Whether the five seconds are over. */
    public boolean isOver(long nowNanos) {
        return nowNanos >= startNanos + LENGTH_NANOS;
    }

    /** Judges what was taken. */
    public Result judge() {
        boolean whole = !paused && startNanos + LENGTH_NANOS - lastNanos <= MOST_PAUSE_NANOS;
        if (size < FEWEST || !whole) {
            return refused("too few readings: " + size + " in 5 s, with a pause; is the instrument sending?");
        }
        double median = median(Arrays.copyOf(values, size));
        double[] distances = Arrays.stream(values, 0, size)
                .map(v -> Math.abs(v - median))
                .sorted()
                .toArray();
        double spread = MAD_TO_SIGMA * median(distances.clone());
        double drift = median(Arrays.copyOfRange(values, size / 2, size)) - median(Arrays.copyOf(values, size / 2));
        if (!(spread <= MOST_SPREAD)) {
            return refused("not steady: spread " + text(spread) + ", at most " + text(MOST_SPREAD)
                    + "; shield both ports from moving air");
        }
        if (!(Math.abs(drift) <= MOST_DRIFT)) {
            return refused(
                    "drifting by " + text(drift) + ", at most " + text(MOST_DRIFT) + "; let the instrument warm up");
        }
        if (!(distances[size - 1] <= MOST_STRAY)) {
            return refused("a reading strayed by " + text(distances[size - 1]) + "; was a hose touched?");
        }
        if (!(Math.abs(median) <= MOST_OFFSET)) {
            return refused("reads " + text(median) + ", too far off for a zero; are both ports open to air?");
        }
        return new Result(Optional.of(new ZeroOffset(tap, median, startNanos + LENGTH_NANOS, spread, drift, size)), "");
    }

    private static Result refused(String why) {
        return new Result(Optional.empty(), why);
    }

    private static String text(double pascals) {
        return String.format(Locale.ROOT, "%.2f Pa", pascals);
    }

    private static double median(double[] all) {
        Arrays.sort(all);
        int n = all.length;
        return (all[(n - 1) / 2] + all[n / 2]) / 2;
    }
}
