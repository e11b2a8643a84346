package draftwitness.dashboard;

import org.jspecify.annotations.Nullable;

/**
 * A {@link SeriesStore} as it was at one moment. Immutable; any thread.
 *
 * <p>Readings are addressed by their running number {@code g} (long). A bin of level {@code k} (1, 2, ...) sums up
 * readings {@code j * 16^k} to {@code (j + 1) * 16^k}; level 0 are the readings themselves.
 */
final class SeriesSnapshot {
    private final SeriesStore.Chunk[] table;
    private final long size;
    private final long available;
    private final Bins.View[] levels;
    private final GapFinder.Found gaps;

    SeriesSnapshot(SeriesStore.Chunk[] table, long size, long available, Bins.View[] levels, GapFinder.Found gaps) {
        this.table = table;
        this.size = size;
        this.available = available;
        this.levels = levels;
        this.gaps = gaps;
    }

    /** Number of readings, those thinned out included. */
    long size() {
        return size;
    }

    /** Readings from this running number on are kept singly. */
    long firstFullRate() {
        return available;
    }

    /** Sums up the readings by columns. */
    Columns columns(ColumnGrid grid) {
        Columns.Builder out = new Columns.Builder(grid);
        long g = firstEndingAtOrAfter(grid.fromNanos());
        Sample before = g > 0 ? lastBefore(g) : null;
        if (before != null) {
            out.add(before.timeNanos(), before.value());
        }
        long gapsFrom = before == null ? grid.fromNanos() : before.timeNanos();
        long gapsTo = grid.toNanos();
        while (g < size) {
            int level = levelFor(g, grid);
            long from = firstTime(g, level);
            addTo(out, g, level);
            if (from >= grid.toNanos()) {
                gapsTo = from;
                break;
            }
            g += width(level);
        }
        gaps.addTo(out, gapsFrom, gapsTo);
        return out.build();
    }

    /** The latest reading at or before a time, or null; of thinned readings the last of its bin that is not later. */
    @Nullable
    Sample readingAt(long nanos) {
        long g = firstEndingAtOrAfter(nanos == Long.MAX_VALUE ? nanos : nanos + 1);
        if (g < size && levelAt(g) > 0 && firstTime(g, levelAt(g)) <= nanos) {
            Bins.View bins = levels[levelAt(g) - 1];
            return new Sample(bins.firstTime(g / width(levelAt(g))), bins.first(g / width(levelAt(g))));
        }
        return g > 0 ? lastBefore(g) : null;
    }

    /** The finest level that has reading {@code g}. */
    private int levelAt(long g) {
        if (g >= available) {
            return 0;
        }
        int level = 1;
        while (!levels[level - 1].has(g / width(level))) {
            level++;
        }
        return level;
    }

    /** The coarsest level whose bin starts with {@code g}, is complete, and fits into one column of the grid. */
    private int levelFor(long g, ColumnGrid grid) {
        int level = levelAt(g);
        long columnEnd = grid.startOf(grid.indexOf(firstTime(g, level)) + 1);
        while (level < levels.length) {
            long width = width(level + 1);
            if (g % width != 0 || !levels[level].has(g / width) || levels[level].lastTime(g / width) >= columnEnd) {
                break;
            }
            level++;
        }
        return level;
    }

    private void addTo(Columns.Builder out, long g, int level) {
        if (level == 0) {
            SeriesStore.Chunk c = table[(int) (g / SeriesStore.CHUNK)];
            int i = (int) (g % SeriesStore.CHUNK);
            out.add(c.times[i], c.values[i]);
        } else {
            levels[level - 1].addTo(out, g / width(level), (int) Math.min(width(level), Integer.MAX_VALUE));
        }
    }

    private long firstTime(long g, int level) {
        return level == 0
                ? table[(int) (g / SeriesStore.CHUNK)].times[(int) (g % SeriesStore.CHUNK)]
                : levels[level - 1].firstTime(g / width(level));
    }

    private long lastTime(long g, int level) {
        return level == 0 ? firstTime(g, 0) : levels[level - 1].lastTime(g / width(level));
    }

    /** The last reading before running number {@code g}, which is above 0 and starts a bin or reading. */
    private Sample lastBefore(long g) {
        int level = levelAt(g - 1);
        if (level == 0) {
            SeriesStore.Chunk c = table[(int) ((g - 1) / SeriesStore.CHUNK)];
            int i = (int) ((g - 1) % SeriesStore.CHUNK);
            return new Sample(c.times[i], c.values[i]);
        }
        long bin = (g - 1) / width(level);
        return new Sample(levels[level - 1].lastTime(bin), levels[level - 1].last(bin));
    }

    /** Running number of the first reading or bin, on the finest level there is, that does not end before a time. */
    private long firstEndingAtOrAfter(long nanos) {
        long low = 0;
        long high = size;
        while (low < high) {
            long middle = (low + high) >>> 1;
            int level = levelAt(middle);
            long start = middle / width(level) * width(level);
            if (lastTime(start, level) < nanos) {
                low = Math.min(size, start + width(level));
            } else {
                high = start;
            }
        }
        return low;
    }

    private static long width(int level) {
        return 1L << (4 * level);
    }
}
