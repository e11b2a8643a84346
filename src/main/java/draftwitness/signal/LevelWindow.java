package draftwitness.signal;

import java.util.Arrays;

/**
 * Level and spread of the last so many values: median and median absolute deviation, exact, in constant memory. One
 * owner thread. Adding costs a shift in a sorted array; the deviation is found from both sides of the median without
 * sorting.
 */
public final class LevelWindow {
    private final double[] ring;
    private final double[] sorted;
    private int size;
    private int oldest;

    /** An empty window for {@code width} values, at least 1. */
    public LevelWindow(int width) {
        if (width < 1) {
            throw new IllegalArgumentException("width " + width + " is below 1");
        }
        ring = new double[width];
        sorted = new double[width];
    }

    /** Adds a value; the oldest leaves a full window. NaN is not taken. */
    public void add(double value) {
        if (Double.isNaN(value)) {
            return;
        }
        if (size == ring.length) {
            int at = Arrays.binarySearch(sorted, 0, size, ring[oldest]);
            System.arraycopy(sorted, at + 1, sorted, at, size - at - 1);
            size--;
        }
        int at = Arrays.binarySearch(sorted, 0, size, value);
        at = at < 0 ? -at - 1 : at;
        System.arraycopy(sorted, at, sorted, at + 1, size - at);
        sorted[at] = value;
        ring[oldest] = value;
        oldest = oldest + 1 == ring.length ? 0 : oldest + 1;
        size++;
    }

    /** Forgets everything. */
    public void clear() {
        size = 0;
        oldest = 0;
    }

    public int size() {
        return size;
    }

    /** The median; NaN when empty. */
    public double median() {
        if (size == 0) {
            return Double.NaN;
        }
        return size % 2 == 1 ? sorted[size / 2] : (sorted[size / 2 - 1] + sorted[size / 2]) / 2;
    }

    /** Robust standard deviation: {@link Robust#SIGMA_OF_MAD} times the median absolute deviation; NaN when empty. */
    public double sigma() {
        if (size == 0) {
            return Double.NaN;
        }
        double middle = median();
        int left = (size - 1) / 2;
        int right = left + 1;
        double before = 0;
        double last = 0;
        for (int taken = 0; taken <= size / 2; taken++) {
            before = last;
            boolean takeLeft = right >= size || (left >= 0 && middle - sorted[left] <= sorted[right] - middle);
            last = takeLeft ? middle - sorted[left--] : sorted[right++] - middle;
        }
        return Robust.SIGMA_OF_MAD * (size % 2 == 1 ? last : (before + last) / 2);
    }

    /** The smallest value; NaN when empty. */
    public double smallest() {
        return size == 0 ? Double.NaN : sorted[0];
    }
}
