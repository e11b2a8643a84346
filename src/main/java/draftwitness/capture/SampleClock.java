package draftwitness.capture;

import java.util.Arrays;

/**
 * Makes sample times out of the jittery arrivals of numbered messages. Pure; one owner thread.
 *
 * <p>How it works. Message {@code k} was taken at {@code k * T} by the instrument's clock, and whatever carries it only
 * ever adds delay: the smallest residuals {@code d = arrival - k * T} therefore trace the instrument's clock against
 * ours, and everything above them is delay. Of each second of the instrument's time the smallest residual is kept, for
 * the last {@value #BLOCKS} such blocks. Through them goes a straight line: its slope is the median of the slopes of
 * all pairs, which stalls of whole seconds do not pull; its height is the lower quartile of what is left, near the
 * envelope and yet not hanging on one odd block. A message's time is {@code k * T} plus the line. Until there are
 * {@value #FEWEST_BLOCKS} blocks the line is level at the smallest residual seen.
 *
 * <p>The smallest delay itself cannot be seen from here: times are late by that constant. A time is never later than
 * the arrival, and times increase; where both cannot be (messages that arrived together while the line is still being
 * found), they increase by single nanoseconds.
 *
 * <p>Sources, from memory: V. Paxson, "On calibrating measurements of packet transit times" (1998), and S. Moon, P.
 * Skelly and D. Towsley, "Estimation and removal of clock skew from network delay measurements" (1999), for the lower
 * envelope of delays; H. Theil (1950) and P. K. Sen (1968) for the slope. Blocks, their number and the quartile are our
 * own choice.
 */
final class SampleClock {
    /** Length of a block in the instrument's time: 1 s. */
    static final long BLOCK_NANOS = 1_000_000_000L;

    /** Blocks that the line is drawn through. */
    static final int BLOCKS = 30;

    /** Blocks needed for a line. */
    static final int FEWEST_BLOCKS = 3;

    private final double periodNanos;
    private final double[] blockAt = new double[BLOCKS];
    private final double[] blockLeast = new double[BLOCKS];
    private final double[] scratch = new double[BLOCKS * (BLOCKS - 1) / 2];
    private int blocks;
    private boolean started;
    private long firstNumber;
    private long firstArrival;
    private long openBlock;
    private double openAt;
    private double openLeast;
    private double slope;
    private double height;
    private long last = Long.MIN_VALUE;

    /**
     * A clock that has seen nothing.
     *
     * @param periodNanos nominal time from one number to the next, in nanoseconds; above 0
     */
    SampleClock(double periodNanos) {
        if (!(periodNanos > 0) || Double.isInfinite(periodNanos)) {
            throw new IllegalArgumentException("a period of " + periodNanos + " ns is not positive");
        }
        this.periodNanos = periodNanos;
    }

    /** Forgets the line, for a link that was opened again or a counter that began anew; times go on increasing. */
    void restart() {
        started = false;
        blocks = 0;
        slope = 0;
    }

    /** Whether a line has been found since the last restart. */
    boolean isSettled() {
        return blocks >= FEWEST_BLOCKS;
    }

    /** How much longer the instrument's second is than ours: 1e-6 is a millionth. 0 until settled. */
    double skew() {
        return slope;
    }

    /**
     * Takes the next message and tells when its sample was taken.
     *
     * @param number the message's number by the instrument; above those before, gaps are lost messages
     * @param arrivalNanos when it arrived, in session time; not below those before
     */
    long sampleNanos(long number, long arrivalNanos) {
        if (!started) {
            started = true;
            firstNumber = number;
            firstArrival = arrivalNanos;
            openBlock = 0;
            openAt = 0;
            openLeast = 0;
            height = 0;
        }
        double at = (number - firstNumber) * periodNanos;
        double residual = (arrivalNanos - firstArrival) - at;
        note(at, residual);
        double line = isSettled() ? height + slope * at : height;
        long time = firstArrival + Math.round(at + Math.min(line, residual));
        last = Math.max(Math.min(time, arrivalNanos), last == Long.MIN_VALUE ? Long.MIN_VALUE : last + 1);
        return last;
    }

    private void note(double at, double residual) {
        long block = (long) Math.floor(at / BLOCK_NANOS);
        if (block != openBlock) {
            close();
            openBlock = block;
            openAt = at;
            openLeast = residual;
        } else if (residual < openLeast) {
            openAt = at;
            openLeast = residual;
        }
        if (!isSettled()) {
            height = Math.min(height, residual);
        }
    }

    private void close() {
        if (blocks == BLOCKS) {
            System.arraycopy(blockAt, 1, blockAt, 0, BLOCKS - 1);
            System.arraycopy(blockLeast, 1, blockLeast, 0, BLOCKS - 1);
            blocks--;
        }
        blockAt[blocks] = openAt;
        blockLeast[blocks++] = openLeast;
        if (isSettled()) {
            draw();
        }
    }

    /** Draws the line through the blocks. */
    private void draw() {
        int pairs = 0;
        for (int i = 1; i < blocks; i++) {
            for (int j = 0; j < i; j++) {
                scratch[pairs++] = (blockLeast[i] - blockLeast[j]) / (blockAt[i] - blockAt[j]);
            }
        }
        slope = quantile(pairs, 0.5);
        for (int i = 0; i < blocks; i++) {
            scratch[i] = blockLeast[i] - slope * blockAt[i];
        }
        height = quantile(blocks, 0.25);
    }

    /** A quantile of the first {@code n} scratch values, interpolated between neighbours. */
    private double quantile(int n, double fraction) {
        Arrays.sort(scratch, 0, n);
        double place = fraction * (n - 1);
        int below = (int) place;
        int above = Math.min(below + 1, n - 1);
        return scratch[below] + (place - below) * (scratch[above] - scratch[below]);
    }

    /** How far an arrival lies above the line for that number, in nanoseconds: its delay; below 0 if it is early. */
    double delayNanos(long number, long arrivalNanos) {
        if (!started) {
            return 0;
        }
        double at = (number - firstNumber) * periodNanos;
        return (arrivalNanos - firstArrival) - at - height - (isSettled() ? slope * at : 0);
    }

    /** The number that a message without delay would have if it arrived then; only once a message was taken. */
    double numberAt(long arrivalNanos) {
        double at = ((arrivalNanos - firstArrival) - height) / (1 + (isSettled() ? slope : 0));
        return firstNumber + at / periodNanos;
    }

    double periodNanos() {
        return periodNanos;
    }
}
