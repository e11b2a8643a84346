package draftwitness.cycle;

import draftwitness.signal.Robust;

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
     * When suction was back at idle: from the first half second on in which it is within the band of the level at the
     * end of the tail. The warm vent draws a little for minutes after a run, so the level before the run is no measure.
     */
    static long end(Track track, long cross, long tailEnd, double sigma, double band) {
        double[] last = track.means(tailEnd - 4 * SECOND, tailEnd);
        if (last.length == 0) {
            return cross;
        }
        double level = Robust.median(last);
        for (long i = track.at(cross); i < track.end() && track.time(i) < tailEnd; i++) {
            double[] next = track.means(track.time(i), track.time(i) + SECOND / 2);
            double mean = mean(next);
            if (Math.abs(mean - level) <= Math.max(band, 2 * sigma / Math.sqrt(next.length))) {
                return track.time(i) + (next.length > 1 ? SECOND / 4 : 0);
            }
        }
        return tailEnd;
    }

    private static double mean(double[] values) {
        double sum = 0;
        for (double v : values) {
            sum += v;
        }
        return sum / values.length;
    }
}
