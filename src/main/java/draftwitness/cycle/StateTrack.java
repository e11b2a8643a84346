package draftwitness.cycle;

import draftwitness.reading.Block;
import java.util.Arrays;

/** The recent changes of one contact or control output. One owner thread; memory is bounded. */
final class StateTrack {
    private static final int MOST = 1 << 17;

    private long[] changes = new long[64];
    private long[] before = new long[64];
    private long readings;
    private long allChanges;
    private long last;
    private int size;
    private boolean firstState;
    private boolean known;
    private long since;

    void add(Block block) {
        for (int i = 0; i < block.size(); i++) {
            add(block.timeNanos(i), block.count(i) != 0);
        }
    }

    /** Takes a state at a time; only changes are kept. */
    void add(long time, boolean on) {
        readings++;
        if (!known) {
            known = true;
            last = time;
            firstState = on;
            since = time;
            return;
        }
        if (on != stateAfter(size)) {
            if (size == changes.length) {
                grow();
            }
            before[size] = last;
            changes[size++] = time;
            allChanges++;
        }
        last = time;
    }

    private void grow() {
        if (changes.length < MOST) {
            changes = Arrays.copyOf(changes, 2 * size);
            before = Arrays.copyOf(before, 2 * size);
        } else {
            drop(MOST / 2);
        }
    }

    private boolean stateAfter(int count) {
        return firstState ^ (count % 2 == 1);
    }

    private void drop(int count) {
        firstState = stateAfter(count);
        System.arraycopy(changes, count, changes, 0, size - count);
        System.arraycopy(before, count, before, 0, size - count);
        size -= count;
    }

    /** Forgets changes before a time. */
    void dropBefore(long time) {
        int n = 0;
        while (n < size && changes[n] < time) {
            n++;
        }
        if (n > 0) {
            drop(n);
        }
    }

    /** Whether a state was known at a time. */
    boolean knownAt(long time) {
        return known && since <= time;
    }

    /** The state at a time; the first one for times before it. A change counts from its own time on. */
    boolean at(long time) {
        return stateAfter(index(time + 1));
    }

    /** Number of changes held before a time. */
    int index(long time) {
        int found = Arrays.binarySearch(changes, 0, size, time);
        return found < 0 ? -found - 1 : found;
    }

    /** Times of changes from one time (inclusive) to another (exclusive). */
    long[] changes(long fromTime, long toTime) {
        int a = index(fromTime);
        return Arrays.copyOfRange(changes, a, Math.max(a, index(toTime)));
    }

    /** First time at or after a time with the given state, before the end; {@link Long#MAX_VALUE} if there is none. */
    long next(boolean on, long fromTime, long endTime) {
        if (at(fromTime) == on) {
            return fromTime;
        }
        int i = index(fromTime + 1);
        return i < size && changes[i] < endTime ? changes[i] : Long.MAX_VALUE;
    }

    /**
     * How long the state that began with the change at {@code index} is sure to have lasted: a sampled contact may have
     * changed back right after the last reading that showed it, an event-driven one changed when it says.
     */
    long sureNanos(int index) {
        boolean sampled = readings > 4 * allChanges + 10;
        long end = index + 1 < size ? (sampled ? before[index + 1] : changes[index + 1]) : last;
        return end - changes[index];
    }

    /**
     * The middle of the time in which the change at {@code index} must have happened, at most 0.2 s before it is seen.
     */
    long likelyNanos(int index) {
        boolean sampled = readings > 4 * allChanges + 10;
        return sampled ? changes[index] - Math.min(100_000_000, (changes[index] - before[index]) / 2) : changes[index];
    }
}
