package draftwitness.cycle;

import draftwitness.reading.Block;
import draftwitness.reading.Channel;
import java.util.Arrays;

/**
 * The recent course of one channel in looks: at most one each 50 ms, the mean of the readings that fell into it. One
 * owner thread; memory is bounded.
 *
 * <p>How it works: looks lie on a grid fixed to session time, so they do not depend on how blocks were cut. Beside its
 * mean a look knows the weakest level that lasted, in both directions: the largest of the smallest readings of each
 * lasting window, and the smallest of the largest. A look is closed by the first reading after it. When a run gets so
 * long that the track is full, every second look of its older half is merged away: old times keep their levels and lose
 * sharpness.
 */
final class Track {
    static final long LOOK_NANOS = 50_000_000;
    private static final int MOST = 1 << 19;
    private static final int LASTING = 128;

    private final Channel channel;
    private final long lastingNanos;
    private final boolean keepsLasting;
    private final long[] recentTimes = new long[LASTING];
    private final double[] recent = new double[LASTING];
    private int recentAt;
    private int recentSize;

    private long[] times = new long[1024];
    private double[] means = new double[1024];
    private double[] lows = new double[1024];
    private double[] highs = new double[1024];
    private int from;
    private int to;
    private long dropped;

    private long cell = Long.MIN_VALUE;
    private long cellStart = Long.MIN_VALUE;
    private long cellTimes;
    private double cellSum;
    private double cellLow;
    private double cellHigh;
    private int cellSize;
    private double step;

    /**
     * An empty track.
     *
     * @param keepsLasting whether lasting levels are wanted; else low and high of a look are its mean
     */
    Track(Channel channel, double lastingSeconds, boolean keepsLasting) {
        this.channel = channel;
        this.keepsLasting = keepsLasting;
        this.lastingNanos = CycleSettings.nanos(lastingSeconds);
    }

    Channel channel() {
        return channel;
    }

    void add(Block block) {
        step = Math.max(step, Math.abs(block.step().inBase(1)));
        for (int i = 0; i < block.size(); i++) {
            add(block.timeNanos(i), block.value(i));
        }
    }

    private void add(long time, double value) {
        if (time < cellStart || time >= cellStart + LOOK_NANOS) {
            close();
            cell = Math.floorDiv(time, LOOK_NANOS);
            cellStart = cell * LOOK_NANOS;
        }
        cellTimes += time - cellStart;
        cellSum += value;
        cellSize++;
        if (keepsLasting) {
            remember(time, value);
        }
    }

    private void remember(long time, double value) {
        recentAt = (recentAt + 1) & (LASTING - 1);
        recentTimes[recentAt] = time;
        recent[recentAt] = value;
        recentSize = Math.min(LASTING, recentSize + 1);
        double least = value;
        double most = value;
        for (int i = 1; i < recentSize; i++) {
            int k = (recentAt - i) & (LASTING - 1);
            least = Math.min(least, recent[k]);
            most = Math.max(most, recent[k]);
            if (time - recentTimes[k] >= lastingNanos) {
                break;
            }
        }
        cellLow = cellSize == 1 ? most : Math.min(cellLow, most);
        cellHigh = cellSize == 1 ? least : Math.max(cellHigh, least);
    }

    /** The coarsest step that readings came in, in pascals; 0 before the first. */
    double stepPascals() {
        return step;
    }

    /** Closes the look that is open if it ends by a time; no later reading may lie in it. */
    void closeBefore(long time) {
        if (cellSize > 0 && (cell + 1) * LOOK_NANOS <= time) {
            close();
        }
    }

    /** Closes the look that is open; only when nothing follows. */
    void close() {
        if (cellSize == 0) {
            return;
        }
        if (to == times.length) {
            makeRoom();
        }
        times[to] = cell * LOOK_NANOS + cellTimes / cellSize;
        means[to] = cellSum / cellSize;
        lows[to] = keepsLasting ? cellLow : means[to];
        highs[to] = keepsLasting ? cellHigh : means[to];
        to++;
        cellTimes = 0;
        cellSum = 0;
        cellSize = 0;
    }

    private void makeRoom() {
        if (from > times.length / 2) {
            move(from, 0, to - from);
            dropped += from;
            to -= from;
            from = 0;
        } else if (times.length < MOST) {
            int length = times.length * 2;
            times = Arrays.copyOf(times, length);
            means = Arrays.copyOf(means, length);
            lows = Arrays.copyOf(lows, length);
            highs = Arrays.copyOf(highs, length);
        } else {
            thin();
        }
    }

    private void thin() {
        int half = (to - from) / 4;
        for (int i = 0; i < half; i++) {
            int a = from + 2 * i;
            times[from + i] = times[a];
            means[from + i] = (means[a] + means[a + 1]) / 2;
            lows[from + i] = Math.min(lows[a], lows[a + 1]);
            highs[from + i] = Math.max(highs[a], highs[a + 1]);
        }
        move(from + 2 * half, from + half, to - from - 2 * half);
        dropped += half;
        to -= half;
    }

    private void move(int source, int target, int length) {
        System.arraycopy(times, source, times, target, length);
        System.arraycopy(means, source, means, target, length);
        System.arraycopy(lows, source, lows, target, length);
        System.arraycopy(highs, source, highs, target, length);
    }

    /** Forgets looks before a time. */
    void dropBefore(long time) {
        while (from < to && times[from] < time) {
            from++;
        }
    }

    /** Number of the first look held; numbers rise by one with each look and stay when others are dropped. */
    long first() {
        return dropped + from;
    }

    /** Number after that of the last look held. */
    long end() {
        return dropped + to;
    }

    long time(long number) {
        return times[(int) (number - dropped)];
    }

    double mean(long number) {
        return means[(int) (number - dropped)];
    }

    /** Smallest level that lasted and ended in the look. */
    double low(long number) {
        return lows[(int) (number - dropped)];
    }

    /** Largest level that lasted and ended in the look. */
    double high(long number) {
        return highs[(int) (number - dropped)];
    }

    /** Number of the first look at or after a time. */
    long at(long time) {
        int found = Arrays.binarySearch(times, from, to, time);
        return dropped + (found < 0 ? -found - 1 : found);
    }

    /** Means of the looks from one time (inclusive) to another (exclusive). */
    double[] means(long fromTime, long toTime) {
        int a = (int) (at(fromTime) - dropped);
        int b = (int) (at(toTime) - dropped);
        return Arrays.copyOfRange(means, a, Math.max(a, b));
    }
}
