package draftwitness.dashboard;

import java.util.Arrays;

/**
 * One level of a {@link SeriesStore}: summaries of equally many successive readings, oldest first. Grows at the end;
 * the oldest chunks can be dropped. Entries, once written, do not change, so that {@link View}s share the chunks.
 */
final class Bins {
    /** Bins in a chunk. */
    static final int CHUNK = 256;

    /** Memory of a chunk: two times and five values a bin. */
    static final long CHUNK_BYTES = CHUNK * 56L;

    private static final class Chunk {
        final long[] firstTime = new long[CHUNK];
        final long[] lastTime = new long[CHUNK];
        final double[] min = new double[CHUNK];
        final double[] max = new double[CHUNK];
        final double[] first = new double[CHUNK];
        final double[] last = new double[CHUNK];
        final double[] sum = new double[CHUNK];
    }

    /** What a reader sees: bins {@code available} (inclusive) to {@code count} (exclusive). */
    static final class View {
        private final Chunk[] table;
        private final long count;
        private final long available;

        private View(Chunk[] table, long count, long available) {
            this.table = table;
            this.count = count;
            this.available = available;
        }

        boolean has(long bin) {
            return bin >= available && bin < count;
        }

        long firstTime(long bin) {
            return chunk(bin).firstTime[(int) (bin % CHUNK)];
        }

        long lastTime(long bin) {
            return chunk(bin).lastTime[(int) (bin % CHUNK)];
        }

        double first(long bin) {
            return chunk(bin).first[(int) (bin % CHUNK)];
        }

        double last(long bin) {
            return chunk(bin).last[(int) (bin % CHUNK)];
        }

        void addTo(Columns.Builder out, long bin, int readings) {
            Chunk c = chunk(bin);
            int i = (int) (bin % CHUNK);
            out.addSummary(
                    readings, c.firstTime[i], c.lastTime[i], c.min[i], c.max[i], c.first[i], c.last[i], c.sum[i]);
        }

        private Chunk chunk(long bin) {
            return table[(int) (bin / CHUNK)];
        }
    }

    private Chunk[] table = new Chunk[4];
    private long count;
    private long available;

    // The bin being collected.
    private int collected;
    private long firstTime;
    private long lastTime;
    private double min;
    private double max;
    private double first;
    private double last;
    private double sum;

    /** Takes in a reading, or a finished bin of the level below; true when that completed a bin. */
    boolean collect(long fromTime, long toTime, double low, double high, double start, double end, double total) {
        if (collected == 0) {
            firstTime = fromTime;
            first = start;
            min = low;
            max = high;
            sum = 0;
        }
        sum += total;
        lastTime = toTime;
        last = end;
        min = Math.min(min, low);
        max = Math.max(max, high);
        collected++;
        if (collected < SeriesStore.FAN) {
            return false;
        }
        push();
        return true;
    }

    /** Passes the bin completed last to the level above; true when that completed one there. */
    boolean collectInto(Bins above) {
        return above.collect(firstTime, lastTime, min, max, first, last, sum);
    }

    private void push() {
        int chunk = (int) (count / CHUNK);
        if (chunk == table.length) {
            table = Arrays.copyOf(table, 2 * chunk);
        }
        if (count % CHUNK == 0) {
            table[chunk] = new Chunk();
        }
        Chunk c = table[chunk];
        int i = (int) (count % CHUNK);
        c.firstTime[i] = firstTime;
        c.lastTime[i] = lastTime;
        c.min[i] = min;
        c.max[i] = max;
        c.first[i] = first;
        c.last[i] = last;
        c.sum[i] = sum;
        count++;
        collected = 0;
    }

    long bytes() {
        return ((count + CHUNK - 1) / CHUNK - available / CHUNK) * CHUNK_BYTES;
    }

    /** Drops the oldest chunk, unless it is the one being filled. */
    void dropOldest() {
        if (available + CHUNK <= count - 1) {
            table = table.clone(); // views in use keep theirs
            table[(int) (available / CHUNK)] = null;
            available += CHUNK;
        }
    }

    View view() {
        return new View(table, count, available);
    }
}
