package draftwitness.signal;

/**
 * Median of the last {@code width} whole counts, by a histogram and a pointer that follows the middle. One owner
 * thread.
 *
 * <p>How it works: a histogram of the window, the present median, and how many counts lie below it. A new or leaving
 * count changes both by one, and the pointer walks to the neighbouring filled bin; readings of a slow quantity move it
 * little. Idea: Huang, Yang and Tang, IEEE Trans. Acoust. Speech Signal Process. 27 (1979). For an even number of
 * counts the lower middle one is given.
 */
public final class RollingMedian {
    private final int[] window;
    private final int lowest;
    private final int[] bins;
    private int size;
    private int oldest;
    private int median;
    private int below;

    /**
     * An empty window.
     *
     * @param width counts in the window, at least 1
     * @param lowest smallest count; smaller ones count as this
     * @param highest largest count; larger ones count as this
     */
    public RollingMedian(int width, int lowest, int highest) {
        if (width < 1 || lowest > highest) {
            throw new IllegalArgumentException("width " + width + ", counts " + lowest + " to " + highest);
        }
        this.window = new int[width];
        this.lowest = lowest;
        this.bins = new int[highest - lowest + 1];
    }

    /** Adds a count, dropping the oldest when the window is full, and returns the median. */
    public int add(int count) {
        int bin = Math.max(0, Math.min(bins.length - 1, count - lowest));
        if (size == window.length) {
            remove(window[oldest]);
        } else {
            size++;
        }
        window[oldest] = bin;
        oldest = oldest + 1 == window.length ? 0 : oldest + 1;
        bins[bin]++;
        if (bin < median) {
            below++;
        }
        settle();
        return median();
    }

    private void remove(int bin) {
        bins[bin]--;
        if (bin < median) {
            below--;
        }
    }

    private void settle() {
        int rank = (size - 1) / 2;
        while (below > rank) {
            median--;
            below -= bins[median];
        }
        while (below + bins[median] <= rank) {
            below += bins[median];
            median++;
        }
    }

    /** The median so far; {@code lowest} when empty. */
    public int median() {
        return median + lowest;
    }

    public int size() {
        return size;
    }

    /** Forgets everything. */
    public void clear() {
        for (int i = 0; i < size; i++) {
            bins[window[i]] = 0;
        }
        size = 0;
        oldest = 0;
        below = 0;
        median = 0;
    }
}
