package draftwitness.cycle;

import draftwitness.signal.Robust;
import java.util.Arrays;

/**
 * What a channel reads without suction, as a straight line over one run. Pascal as read; immutable.
 *
 * <p>How it is found: the level at idle before the run is taken off, if it is more than the idle itself wanders. Wind
 * at the terminal moves the idle by pascals, so the medians of single seconds are compared with each other: what is not
 * beyond twice their spread (six times when they differ by more than noise) cannot be told from wind and is left alone.
 * Where the idle after the run lies clearly elsewhere, the instrument's zero moved during the run, and the line goes
 * from one to the other. A warm vent's own draft after a run is too small for that.
 *
 * @param pascals reading without suction at {@code atNanos}
 * @param perNano change each nanosecond
 * @param atNanos session time
 */
record Zero(double pascals, double perNano, long atNanos) {
    private static final long SECOND = 1_000_000_000;

    /** Looks before a run are kept for a minute; less is used, so that no result depends on when they are dropped. */
    private static final long BEFORE = 45 * SECOND;

    private static final int FEWEST_BLOCKS = 4;
    private static final double CLEAR = 2;

    /**
     * Seconds that differ from each other by more than so many times what noise makes of them were windy. Gusts last
     * for tens of seconds, longer than what is seen of them before a run, so then the zero must stand out by far more.
     */
    private static final double GUSTY = 3;

    private static final double CLEAR_IN_GUSTS = 6;

    /**
     * An idle after the run that differs by this share of the run's level, by this many pascals, and by the wander, is
     * another zero. A blower that still runs, or a warm vent, moves it less.
     */
    private static final double MOVED_SHARE = 0.01;

    private static final double MOVED_PASCALS = 5;

    static final Zero NONE = new Zero(0, 0, 0);

    double at(long time) {
        return perNano == 0 ? pascals : pascals + perNano * (time - atNanos);
    }

    /**
     * The zero of a channel over a run.
     *
     * @param known the idle level before it as the run's own detector has it, or NaN to take it from the looks
     */
    static Zero of(Track track, RunSpan span, double known) {
        if (!span.startSeen()) {
            return NONE;
        }
        long from = Math.max(span.startNanos() - BEFORE, span.idleFromNanos());
        long to = span.startNanos() - SECOND / 2;
        double wander = wander(track, from, to);
        double[] idle = track.means(from, Math.max(from, to));
        double before = Double.isNaN(known) ? Robust.median(idle) : known;
        if (Double.isNaN(before)) {
            return NONE;
        }
        double clear = wander > GUSTY * still(idle, from, to) ? CLEAR_IN_GUSTS : CLEAR;
        double taken = Math.abs(before) > clear * wander ? before : 0;
        double[] last = track.means(span.watchedToNanos() - 4 * SECOND, span.watchedToNanos());
        if (span.lasting() || last.length < 5 || idle.length < 5) {
            return new Zero(taken, 0, 0);
        }
        double moved = Robust.median(last) - Robust.median(idle);
        double least = Math.max(MOVED_PASCALS, Math.max(MOVED_SHARE * span.levelPascals(), 3 * wander));
        if (Math.abs(moved) <= least) {
            return new Zero(taken, 0, 0);
        }
        long middle = to - (to - from) / 2;
        double perNano = moved / (span.watchedToNanos() - 2 * SECOND - middle);
        return new Zero(Robust.median(idle), perNano, middle);
    }

    /** Standard deviation of the medians of single seconds if the looks only had their own noise. */
    private static double still(double[] idle, long from, long to) {
        double perSecond = idle.length / Math.max(1.0, (to - from) / 1e9);
        return 1.25 * Quiet.noise(idle, 0, idle.length) / Math.sqrt(Math.max(1, perSecond)); // a median's is 1.25 times
    }

    /** Robust standard deviation of the medians of single seconds; 0 where there are too few to say. */
    private static double wander(Track track, long from, long to) {
        int blocks = (int) Math.max(0, (to - from) / SECOND);
        double[] medians = new double[blocks];
        int n = 0;
        for (int i = 0; i < blocks; i++) {
            double[] one = track.means(to - (i + 1) * SECOND, to - i * SECOND);
            if (one.length > 0) {
                medians[n++] = Robust.median(one);
            }
        }
        return n < FEWEST_BLOCKS ? 0 : Robust.SIGMA_OF_MAD * Robust.mad(Arrays.copyOf(medians, n));
    }
}
