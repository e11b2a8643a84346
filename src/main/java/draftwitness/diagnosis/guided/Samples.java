package draftwitness.diagnosis.guided;

import draftwitness.reading.Quantity;
import draftwitness.reading.Tap;
import java.util.Arrays;

/**
 * Readings of one tap during a part, zero taken off; bounded memory. A contact keeps the readings around its changes
 * only; of a very long stretch of pressure, neighbours are averaged. One owner thread.
 */
final class Samples {
    /** So many are kept at most: 40 min at 100 a second, before neighbours are averaged. */
    static final int MOST = 1 << 18;

    private final Tap tap;
    private long[] times = new long[256];
    private double[] values = new double[256];
    private int size;
    private int stride = 1;
    private int pending;
    private double pendingSum;
    private double step;

    Samples(Tap tap) {
        this.tap = tap;
    }

    Tap tap() {
        return tap;
    }

    /**
     * Adds a reading after the last.
     *
     * @param stepBase the instrument's smallest step, in the base unit
     */
    void add(long timeNanos, double value, double stepBase) {
        step = Math.max(step, stepBase);
        if (tap.quantity() == Quantity.CONTACT) {
            if (size >= 2 && values[size - 1] == value && values[size - 2] == value) {
                size--;
            }
            put(timeNanos, value);
            return;
        }
        pendingSum += value;
        if (++pending == stride) {
            put(timeNanos, pendingSum / pending);
            pending = 0;
            pendingSum = 0;
        }
    }

    private void put(long timeNanos, double value) {
        if (size == MOST) {
            halve();
        }
        if (size == times.length) {
            times = Arrays.copyOf(times, 2 * size);
            values = Arrays.copyOf(values, 2 * size);
        }
        times[size] = timeNanos;
        values[size++] = value;
    }

    private void halve() {
        for (int i = 0; i + 1 < size; i += 2) {
            times[i / 2] = times[i + 1];
            values[i / 2] = (values[i] + values[i + 1]) / 2;
        }
        size /= 2;
        stride *= 2;
    }

    int size() {
        return size;
    }

    long time(int i) {
        return times[i];
    }

    double value(int i) {
        return values[i];
    }

    /** The instrument's smallest step, in the base unit; 0 before the first reading. */
    double step() {
        return step;
    }

    /** The values, oldest first. */
    double[] values() {
        return Arrays.copyOf(values, size);
    }

    /** Seconds from the first reading to each. */
    double[] seconds() {
        double[] out = new double[size];
        for (int i = 0; i < size; i++) {
            out[i] = (times[i] - times[0]) / 1e9;
        }
        return out;
    }

    /** Length from the first to the last reading in seconds; 0 with fewer than two. */
    double length() {
        return size < 2 ? 0 : (times[size - 1] - times[0]) / 1e9;
    }

    /** Index of the first reading at or after a time. */
    int at(long timeNanos) {
        int found = Arrays.binarySearch(times, 0, size, timeNanos);
        return found < 0 ? -found - 1 : found;
    }

    /** The readings from one index to another (exclusive), as samples of their own. */
    Samples part(int from, int to) {
        Samples out = new Samples(tap);
        out.times = Arrays.copyOfRange(times, from, Math.max(from + 1, to));
        out.values = Arrays.copyOfRange(values, from, Math.max(from + 1, to));
        out.size = to - from;
        out.step = step;
        return out;
    }

    /** The value at a time, linear between neighbours, the nearest outside; NaN without readings. */
    double valueAt(long timeNanos) {
        int i = at(timeNanos);
        if (size == 0) {
            return Double.NaN;
        }
        if (i == 0 || i == size) {
            return values[Math.min(i, size - 1)];
        }
        double share = (double) (timeNanos - times[i - 1]) / (times[i] - times[i - 1]);
        return values[i - 1] + share * (values[i] - values[i - 1]);
    }

    /** At most so many points, each the mean of neighbours; the points themselves if there are few enough. */
    Samples thinned(int most) {
        int group = (size + most - 1) / Math.max(1, most);
        if (group <= 1) {
            return this;
        }
        Samples out = new Samples(tap);
        out.step = step;
        for (int i = 0; i + group <= size; i += group) {
            double sum = 0;
            long time = 0;
            for (int k = i; k < i + group; k++) {
                sum += values[k];
                time += times[k] - times[i];
            }
            out.put(times[i] + time / group, sum / group);
        }
        return out;
    }
}
