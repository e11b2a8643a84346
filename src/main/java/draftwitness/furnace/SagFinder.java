package draftwitness.furnace;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;

/**
 * Sags of a suction: weaker than the median of the last 10 s of the same phase by more than 3 sigma and 8 %, for at
 * least 0.3 s; closer than 1 s they are one. Sigma is 1.4826 times the median absolute deviation of the same 10 s. What
 * belongs to a sag does not enter the median. Looks 20 times a second. Not thread-safe; one owner.
 */
final class SagFinder {
    private static final double EVERY_SECONDS = 0.05;
    private static final int WINDOW = 200;
    private static final int FEWEST = 40;
    private static final double SHORTEST_SECONDS = 0.3;
    private static final double LONGEST_SECONDS = 60;
    private static final double MERGE_SECONDS = 1;
    private static final double SIGMA_OF_MAD = 1.4826;

    private final double[] ring = new double[WINDOW];
    private final double[] sorted = new double[WINDOW];
    private final double[] deviations = new double[WINDOW];
    private final List<Cycle.Sag> found = new ArrayList<>();
    private int size;
    private int oldest;
    private double nextLook = Double.NEGATIVE_INFINITY;
    private double sagStart = -1;
    private double depth;

    void clear() {
        found.clear();
        size = 0;
        oldest = 0;
        sagStart = -1;
    }

    /** Ends a sag that lasts and starts the median afresh. */
    void newPhase(double now) {
        endSag(now);
        size = 0;
        oldest = 0;
        nextLook = now;
    }

    /** One look, taken or left by time. */
    void tick(double now, double suction) {
        if (now < nextLook - 1e-9) {
            return;
        }
        nextLook = now + EVERY_SECONDS;
        if (size >= FEWEST && weak(suction)) {
            if (sagStart < 0) {
                sagStart = now;
                depth = 0;
            }
            depth = Math.max(depth, level() - suction);
            if (now - sagStart > LONGEST_SECONDS) {
                newPhase(now);
            }
        } else {
            endSag(now);
            add(suction);
        }
    }

    private void endSag(double now) {
        if (sagStart >= 0 && now - sagStart >= SHORTEST_SECONDS) {
            int last = found.size() - 1;
            if (last >= 0 && sagStart - found.get(last).endSeconds() < MERGE_SECONDS) {
                Cycle.Sag earlier = found.remove(last);
                found.add(new Cycle.Sag(earlier.startSeconds(), now, Math.max(earlier.depthPascals(), depth)));
            } else {
                found.add(new Cycle.Sag(sagStart, now, depth));
            }
        }
        sagStart = -1;
    }

    private boolean weak(double suction) {
        double level = level();
        if (suction >= level * 0.92) {
            return false;
        }
        for (int i = 0; i < size; i++) {
            deviations[i] = Math.abs(sorted[i] - level);
        }
        Arrays.sort(deviations, 0, size);
        return level - suction > 3 * SIGMA_OF_MAD * deviations[size / 2];
    }

    private double level() {
        return sorted[size / 2];
    }

    private void add(double value) {
        if (size == WINDOW) {
            int at = Arrays.binarySearch(sorted, 0, size, ring[oldest]);
            System.arraycopy(sorted, at + 1, sorted, at, size - at - 1);
            size--;
        }
        int at = Arrays.binarySearch(sorted, 0, size, value);
        at = at < 0 ? -at - 1 : at;
        System.arraycopy(sorted, at, sorted, at + 1, size - at);
        sorted[at] = value;
        ring[oldest] = value;
        oldest = (oldest + 1) % WINDOW;
        size++;
    }

    List<Cycle.Sag> found() {
        return List.copyOf(found);
    }
}
