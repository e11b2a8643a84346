package draftwitness.recording;

import java.util.Arrays;
import org.jspecify.annotations.Nullable;

/**
 * The regular grid that a run's times scatter around: reading {@code i} is expected at {@code first + offset + ((i +
 * skipped) * period + 2^15 >> 16)}, where {@code skipped} counts the places left out so far. Times are in time steps,
 * the period in 2^-16 of one.
 *
 * <p>Coding times against the grid needs about half the bits of coding differences of differences, since the scatter of
 * one reading does not come back in its neighbours.
 */
final class TimeGrid {
    private static final int FRACTION_BITS = 16;
    private static final long HALF = 1L << (FRACTION_BITS - 1);
    /** Longest period that is tried, so that the arithmetic stays inside 63 bits for any run. */
    private static final long MAX_PERIOD = 1L << 30;

    final long period;
    long offset;
    int skips;
    /** Position of the first reading after each left-out stretch. */
    int[] skipAt = new int[0];
    /** How many places were left out there, at least 1. */
    long[] skipped = new long[0];

    TimeGrid(long period) {
        this.period = period;
    }

    void addSkip(int at, long places) {
        if (skips == skipAt.length) {
            skipAt = Arrays.copyOf(skipAt, 2 * skips + 4);
            skipped = Arrays.copyOf(skipped, 2 * skips + 4);
        }
        skipAt[skips] = at;
        skipped[skips++] = places;
    }

    /**
     * Fits a grid to times that look regular; null when they do not: then differences are coded.
     *
     * @param times at least 3, strictly increasing
     */
    static @Nullable TimeGrid fit(long[] times, int n) {
        long typical = medianStep(times, n);
        if (typical > MAX_PERIOD) {
            return null;
        }
        // Ordinary least squares of time on place, both from the first reading.
        double sumK = 0;
        double sumT = 0;
        double sumKk = 0;
        double sumKt = 0;
        long k = 0;
        TimeGrid places = new TimeGrid(0);
        for (int i = 0; i < n; i++) {
            if (i > 0) {
                long step = times[i] - times[i - 1];
                long advance = Math.max(1, (step + typical / 2) / typical);
                if (advance > 1) {
                    places.addSkip(i, advance - 1);
                }
                k += advance;
            }
            double t = times[i] - times[0];
            sumK += k;
            sumT += t;
            sumKk += (double) k * k;
            sumKt += k * t;
        }
        if (places.skips > n / 4 || k > 1L << 32) {
            return null;
        }
        double slope = (n * sumKt - sumK * sumT) / (n * sumKk - sumK * sumK);
        TimeGrid grid = new TimeGrid(Math.round(slope * (1 << FRACTION_BITS)));
        if (grid.period < 1 || grid.period > MAX_PERIOD << FRACTION_BITS) {
            return null;
        }
        grid.skips = places.skips;
        grid.skipAt = places.skipAt;
        grid.skipped = places.skipped;
        grid.offset = Math.round((sumT - slope * sumK) / n);
        return grid;
    }

    private static long medianStep(long[] times, int n) {
        long[] steps = new long[n - 1];
        for (int i = 1; i < n; i++) {
            steps[i - 1] = times[i] - times[i - 1];
        }
        Arrays.sort(steps);
        return steps[steps.length / 2];
    }

    /** Writes how far each time is off the grid, zigzag coded ({@code n} numbers). */
    void residuals(long[] times, int n, long[] out) {
        long base = times[0] + offset;
        long place = HALF;
        int skip = 0;
        for (int i = 0; i < n; i++) {
            if (skip < skips && skipAt[skip] == i) {
                place += skipped[skip++] * period;
            }
            out[i] = BitWriter.zigzag(times[i] - base - (place >> FRACTION_BITS));
            place += period;
        }
    }

    /** The reverse of {@link #residuals}, in place. */
    void times(long first, long[] inOut, int n) {
        long base = first + offset;
        long place = HALF;
        int from = 0;
        for (int s = 0; s <= skips; s++) {
            int to = s < skips ? skipAt[s] : n;
            for (int i = from; i < to; i++) {
                inOut[i] = base + (place >> FRACTION_BITS) + BitWriter.unzigzag(inOut[i]);
                place += period;
            }
            if (s < skips) {
                place += skipped[s] * period;
            }
            from = to;
        }
    }

    void write(BitWriter out) {
        out.varint(period);
        out.signed(offset);
        out.varint(skips);
        int previous = 0;
        for (int s = 0; s < skips; s++) {
            out.varint(skipAt[s] - previous);
            out.varint(skipped[s]);
            previous = skipAt[s];
        }
    }

    /** Reads what {@link #write} wrote, for a run of {@code n} readings. */
    static TimeGrid read(BitReader in, int n) {
        TimeGrid grid = new TimeGrid(in.varint());
        grid.offset = in.signed();
        int skips = in.varint(0, n);
        int at = 0;
        for (int s = 0; s < skips; s++) {
            at += in.varint(1, n - 1 - at);
            grid.addSkip(at, in.varint());
        }
        return grid;
    }
}
