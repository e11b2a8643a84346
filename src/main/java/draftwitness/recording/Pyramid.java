package draftwitness.recording;

import draftwitness.reading.Slice;
import java.util.ArrayList;
import java.util.List;

/**
 * The overview's shape: four levels of buckets, each eight times as wide as the one below, and how far the rows of each
 * level reach. Pure.
 */
final class Pyramid {
    static final int LEVELS = 4;
    static final int FACTOR = 8;

    private static final long FINEST_NANOS = 4_000_000_000L;

    /** Cells that a row of readings is packed into: 64 s, sixteen of the finest buckets. */
    static final int PACK_CELLS = (int) (16 * FINEST_NANOS / Slice.CELL_NANOS);

    private static final int BUCKETS_A_ROW = 64;

    private Pyramid() {}

    /** Width of a level's buckets: 4 s, 32 s, 256 s, 2048 s. */
    static long widthNanos(int level) {
        long width = FINEST_NANOS;
        for (int i = 0; i < level; i++) {
            width *= FACTOR;
        }
        return width;
    }

    /** A row of the level ends where the cell number is a multiple of this. */
    static long rowCells(int level) {
        return level == 0 ? PACK_CELLS : BUCKETS_A_ROW * (widthNanos(level) / Slice.CELL_NANOS);
    }

    static String table(int level) {
        return "overview_" + level;
    }

    /** Empty buckets for so many channels. */
    static List<Buckets> empty(int channels) {
        List<Buckets> all = new ArrayList<>();
        for (int c = 0; c < channels; c++) {
            all.add(new Buckets());
        }
        return all;
    }

    /** Sums up whole stretches' readings in buckets of a width. */
    static void add(List<Buckets> all, Stretch stretch, long timeStepNanos, long widthNanos) {
        for (Run run : stretch.runs) {
            all.get(run.channel).add(run, 0, run.size, timeStepNanos, widthNanos);
        }
    }
}
