package draftwitness.cycle;

import draftwitness.signal.Robust;
import java.util.Arrays;
import org.jspecify.annotations.Nullable;

/**
 * Suction during one run, zero taken off, positive: times, means, and weakest lasting levels of the looks. Pascal;
 * oldest first. Immutable once made.
 */
final class Suction {
    final long[] times;
    final double[] means;
    final double[] lows;

    private Suction(long[] times, double[] means, double[] lows) {
        this.times = times;
        this.means = means;
        this.lows = lows;
    }

    /**
     * Takes it from a channel.
     *
     * @param reference the channel on the other side of a two-port switch, or null for the room
     */
    static Suction of(
            Track track,
            long fromTime,
            long toTime,
            Zero zero,
            int sign,
            @Nullable Track reference,
            Zero referenceZero) {
        long a = track.at(fromTime);
        int n = (int) Math.max(0, track.at(toTime) - a);
        long[] times = new long[n];
        double[] means = new double[n];
        double[] lows = new double[n];
        for (int i = 0; i < n; i++) {
            long k = a + i;
            long time = track.time(k);
            double other = reference == null ? 0 : nearest(reference, time) - referenceZero.at(time);
            double off = zero.at(time);
            times[i] = time;
            means[i] = sign * (track.mean(k) - off) - sign * other;
            // Reading negative, the weakest suction that lasted is the level nearest to zero that lasted.
            lows[i] = sign < 0 ? off - track.high(k) + other : track.low(k) - off - other;
        }
        return new Suction(times, means, lows);
    }

    private static double nearest(Track track, long time) {
        long i = track.at(time);
        if (track.end() == track.first()) {
            return 0;
        }
        long last = track.end() - 1;
        long at = Math.min(i, last);
        boolean before = at > track.first() && time - track.time(at - 1) < track.time(at) - time;
        return track.mean(before ? at - 1 : at);
    }

    int size() {
        return times.length;
    }

    /** Index of the first look at or after a time. */
    int at(long time) {
        int found = Arrays.binarySearch(times, time);
        return found < 0 ? -found - 1 : found;
    }

    /** Means from one time (inclusive) to another (exclusive). */
    double[] between(long fromTime, long toTime) {
        int a = at(fromTime);
        return Arrays.copyOfRange(means, a, Math.max(a, at(toTime)));
    }

    /** Median from one time to another; NaN without looks. */
    double median(long fromTime, long toTime) {
        return Robust.median(between(fromTime, toTime));
    }

    /** Smallest mean from one time to another; NaN without looks. */
    double smallest(long fromTime, long toTime) {
        return Arrays.stream(between(fromTime, toTime)).min().orElse(Double.NaN);
    }

    /** Largest mean from one time to another; NaN without looks. */
    double largest(long fromTime, long toTime) {
        return Arrays.stream(between(fromTime, toTime)).max().orElse(Double.NaN);
    }

    /** Suction at a time, linear between the looks around it; NaN without looks. */
    double valueAt(long time) {
        int i = at(time);
        if (times.length == 0) {
            return Double.NaN;
        }
        if (i == 0 || i == times.length) {
            return means[Math.min(i, times.length - 1)];
        }
        double share = (double) (time - times[i - 1]) / (times[i] - times[i - 1]);
        return means[i - 1] + share * (means[i] - means[i - 1]);
    }

    /** Looks a second, from the median distance in a span; NaN with fewer than three looks. */
    double rate(long fromTime, long toTime) {
        int a = at(fromTime);
        int b = at(toTime);
        double[] steps = new double[Math.max(0, b - a - 1)];
        for (int i = 0; i < steps.length; i++) {
            steps[i] = times[a + i + 1] - times[a + i];
        }
        return 1e9 / Robust.median(steps);
    }
}
