package draftwitness.dashboard;

import draftwitness.reading.Block;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * The readings of one channel in memory, for drawing.
 *
 * <p>How it works: readings are appended to chunks of primitive arrays. Every 16 readings are summed up by an exact bin
 * (first, last, smallest, largest value and the times of first and last), every 16 bins by a bin of the next level, and
 * so on. A drawing of any width then needs only a few bins a pixel column. The memory cap is shared out: full-rate
 * readings get half of it, bins of the first level a quarter, of the second an eighth; what is oldest on a level is
 * dropped when its share is used up, and drawings of that time use the next level. From the third level on nothing is
 * dropped: 0.015 bytes a reading, 1 MB for 80 million.
 *
 * <p>One thread appends; any thread may take a {@link #snapshot}, which costs a few object headers and never changes.
 */
final class SeriesStore {
    /** Readings summed up by a bin, and bins by a bin of the next level. */
    static final int FAN = 16;

    static final int CHUNK = 4096;
    static final long CHUNK_BYTES = CHUNK * 16L;

    /** Levels that are thinned out: the readings themselves and two levels of bins. */
    private static final int THINNED_LEVELS = 2;

    /** Readings of one chunk. */
    static final class Chunk {
        final long[] times = new long[CHUNK];
        final double[] values = new double[CHUNK];
    }

    private final long capBytes;
    private final GapFinder gaps;
    private final List<Bins> levels = new ArrayList<>();
    private Chunk[] table = new Chunk[4];
    private long size;
    private long available;
    private long lastTime;
    private long outOfOrder;

    /**
     * An empty store.
     *
     * @param holds true for a channel whose state holds while nothing arrives: silence is then no gap
     * @param capBytes about how much memory to use, at least 1 MB
     */
    SeriesStore(boolean holds, long capBytes) {
        if (capBytes < 1 << 20) {
            throw new IllegalArgumentException("cap of " + capBytes + " bytes is below 1 MB");
        }
        this.capBytes = capBytes;
        this.gaps = new GapFinder(holds);
    }

    /** Appends a block. A reading that is not later than the one before is left out and counted. */
    synchronized void append(Block block) {
        for (int i = 0; i < block.size(); i++) {
            append(block.timeNanos(i), block.value(i));
        }
        thin();
    }

    /** Notes that the source was interrupted at a time: the next reading comes after a gap. */
    synchronized void interrupt(long timeNanos) {
        if (size > 0) {
            gaps.interrupt(Math.max(timeNanos, lastTime));
        }
    }

    private void append(long time, double value) {
        if (size > 0 && time <= lastTime) {
            outOfOrder++;
            return;
        }
        gaps.reading(time);
        lastTime = time;
        int chunk = (int) (size / CHUNK);
        if (chunk == table.length) {
            table = Arrays.copyOf(table, 2 * chunk);
        }
        int i = (int) (size % CHUNK);
        if (i == 0) {
            table[chunk] = new Chunk();
        }
        table[chunk].times[i] = time;
        table[chunk].values[i] = value;
        size++;
        if (level(0).collect(time, time, value, value, value, value, value)) {
            int below = 0;
            while (level(below).collectInto(level(below + 1))) {
                below++;
            }
        }
    }

    private Bins level(int index) {
        if (index == levels.size()) {
            levels.add(new Bins());
        }
        return levels.get(index);
    }

    private void thin() {
        while (rawBytes() > capBytes / 2 && available + CHUNK <= size - 1) {
            table = table.clone(); // snapshots in use keep theirs
            table[(int) (available / CHUNK)] = null;
            available += CHUNK;
        }
        for (int k = 0; k < Math.min(THINNED_LEVELS, levels.size()); k++) {
            if (levels.get(k).bytes() > capBytes >> (k + 2)) {
                levels.get(k).dropOldest();
            }
        }
    }

    private long rawBytes() {
        return ((size + CHUNK - 1) / CHUNK - available / CHUNK) * CHUNK_BYTES;
    }

    /** Memory in use for readings and bins, in bytes. */
    synchronized long bytes() {
        return rawBytes() + levels.stream().mapToLong(Bins::bytes).sum();
    }

    /** Readings left out because they were not later than the one before. */
    synchronized long outOfOrder() {
        return outOfOrder;
    }

    /** The latest reading, or null. */
    synchronized @Nullable Sample latest() {
        if (size == 0) {
            return null;
        }
        Chunk c = table[(int) ((size - 1) / CHUNK)];
        return new Sample(lastTime, c.values[(int) ((size - 1) % CHUNK)]);
    }

    /** What is here now; stays as it is. */
    synchronized SeriesSnapshot snapshot() {
        Bins.View[] views = levels.stream().map(Bins::view).toArray(Bins.View[]::new);
        return new SeriesSnapshot(table, size, available, views, gaps.snapshot());
    }
}
