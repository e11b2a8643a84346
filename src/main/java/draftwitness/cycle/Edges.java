package draftwitness.cycle;

import draftwitness.signal.LineFit;
import draftwitness.signal.Robust;
import java.util.Arrays;

/** Finds the edges of a run of the inducer in the looks around it. Pure functions of the looks. */
final class Edges {
    private static final long SECOND = 1_000_000_000;

    private Edges() {}

    /**
     * When suction left idle: the earliest look, going back without interruption from one that is surely above.
     *
     * @param band suction within this is idle
     */
    static long start(Track track, long surely, double zero, int sign, double band) {
        long i = track.at(surely);
        while (i > track.first() && sign * (track.mean(i - 1) - zero) > band) {
            i--;
        }
        return fanStart(track, i, zero, sign, band);
    }

    /**
     * The first pascals of a start drown in noise, so the start is found from what follows: speed grows about linearly,
     * and suction with its square (fan laws), so the root of suction points back to the moment of the start. Goes back
     * a second at most.
     */
    private static long fanStart(Track track, long leaving, double zero, int sign, double band) {
        long left = track.time(leaving);
        double low = Double.NaN;
        long lowTime = 0;
        for (long i = leaving; i < track.end() && track.time(i) < left + 10 * SECOND; i++) {
            double suction = sign * (track.mean(i) - zero);
            if (Double.isNaN(low) && suction > 3 * band) {
                low = Math.sqrt(suction);
                lowTime = track.time(i);
            } else if (suction > 20 * band && Math.sqrt(suction) > low) {
                double back = (track.time(i) - lowTime) * low / (Math.sqrt(suction) - low);
                return Math.max(left - SECOND, Math.min(left, lowTime - Math.round(back)));
            }
        }
        return left;
    }

    /** Typical suction of a run up to some seconds before it was surely over. */
    static double level(Track track, long start, long cross, double zero, int sign) {
        long to = Math.max(cross - 7 * SECOND, start + (cross - start) / 2);
        double[] means = track.means(Math.max(start, cross - 40 * SECOND), Math.max(to, start + 1));
        double median = Robust.median(means);
        return Double.isNaN(median) ? 0 : sign * (median - zero);
    }

    /** When suction left its level for good, going back from where it was surely gone. */
    static long stop(Track track, long start, long cross, double zero, int sign, double level) {
        long i = track.at(cross);
        while (i > track.first() && track.time(i - 1) > start && sign * (track.mean(i - 1) - zero) < 0.95 * level) {
            i--;
        }
        return track.time(Math.max(track.first(), i - 1));
    }

    /**
     * When suction was back at idle: within a share of the run's level of where it settles. The warm vent draws a
     * little for minutes after a run, so the level before the run is no measure; the level at the end of the tail is.
     *
     * <p>Where noise, gusts or the instrument's step are larger than that share, the moment cannot be read off. Then
     * the part of the coasting down that stands out is taken, and carried on as it went: coasting wheels lose speed to
     * drag and friction, and over the last tenths of the pressure that is close to an exponential.
     */
    static long end(Track track, long stop, long cross, long tailEnd, double sigma, double level, double share) {
        double[] last = track.means(tailEnd - 4 * SECOND, tailEnd);
        if (last.length == 0) {
            return cross;
        }
        double settled = Robust.median(last);
        double noise = Math.max(sigma, Robust.SIGMA_OF_MAD * Robust.mad(last)) + track.stepPascals() / Math.sqrt(12);
        double band = share * level;
        long read = readOff(track, cross, tailEnd, settled, Math.max(band, 2 * noise / Math.sqrt(5)));
        if (2 * noise <= band) {
            return read;
        }
        long carried = carriedOn(track, stop, tailEnd, settled, level, Math.max(2 * band, 3 * noise), band);
        // Gusts can make it run on far beyond where suction cannot be told from idle any more: then that is the end.
        boolean farOff = carried > read + 3 * SECOND;
        return Math.max(cross, farOff ? read : Math.min(tailEnd, carried));
    }

    private static long readOff(Track track, long cross, long tailEnd, double settled, double band) {
        for (long i = track.at(cross); i < track.end() && track.time(i) < tailEnd; i++) {
            double[] next = track.means(track.time(i), track.time(i) + SECOND / 2);
            if (Math.abs(mean(next) - settled) <= band) {
                return track.time(i) + (next.length > 1 ? SECOND / 4 : 0);
            }
        }
        return tailEnd;
    }

    /**
     * Carries the coasting down on to a target. Drag in proportion to speed makes speed fall like an exponential, dry
     * friction makes it fall along a straight line; in the last tenths both act. Half way between the two is a straight
     * line of the root of speed, and suction goes with the square of speed (fan laws): so the fourth root of suction is
     * carried on along a straight line, by least squares over the part that stands out.
     */
    private static long carriedOn(
            Track track, long stop, long tailEnd, double settled, double level, double lowest, double target) {
        double highest = Math.max(0.2 * level, 4 * lowest);
        int n = 0;
        double[] t = new double[(int) Math.max(0, track.at(tailEnd) - track.at(stop))];
        double[] root = new double[t.length];
        for (long i = track.at(stop); i < track.end() && track.time(i) < tailEnd; i++) {
            double s = Math.abs(track.mean(i) - settled);
            if (s < lowest) {
                break;
            }
            if (s <= highest) {
                t[n] = (track.time(i) - stop) / 1e9;
                root[n++] = Math.sqrt(Math.sqrt(s));
            }
        }
        if (n < 4) {
            return Long.MAX_VALUE;
        }
        LineFit line = LineFit.of(Arrays.copyOf(t, n), Arrays.copyOf(root, n));
        if (!(line.slope() < 0)) {
            return Long.MAX_VALUE;
        }
        return stop + Math.round((Math.sqrt(Math.sqrt(target)) - line.intercept()) / line.slope() * 1e9);
    }

    private static double mean(double[] values) {
        double sum = 0;
        for (double v : values) {
            sum += v;
        }
        return sum / values.length;
    }
}
