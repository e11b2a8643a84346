package draftwitness.recording;

import draftwitness.reading.SessionHeader;
import java.sql.SQLException;
import java.util.ArrayList;
import java.util.List;

/** Makes the overview's rows as packed rows of readings come along. One owner thread. */
final class OverviewBuilder {

    /** Takes a finished row. */
    interface Sink {
        void row(OverviewRow row) throws SQLException;
    }

    private final Sink sink;
    private final OverviewCodec codec;
    private final long timeStepNanos;
    private final int channels;
    private final List<Level> levels = new ArrayList<>();

    /** What one level still has to write. */
    private static final class Level {
        private List<Buckets> open;
        private long firstCell = Long.MIN_VALUE;

        Level(List<Buckets> open) {
            this.open = open;
        }
    }

    OverviewBuilder(SessionHeader header, Sink sink) {
        this.sink = sink;
        timeStepNanos = header.timeStepNanos();
        channels = header.channels().size();
        codec = new OverviewCodec(timeStepNanos, channels);
        for (int level = 0; level < Pyramid.LEVELS; level++) {
            levels.add(new Level(Pyramid.empty(channels)));
        }
    }

    /** Adds the next packed row, and writes the rows of the levels that end with it. */
    void add(Stretch stretch) throws SQLException {
        List<Buckets> finest = Pyramid.empty(channels);
        Pyramid.add(finest, stretch, timeStepNanos, Pyramid.widthNanos(0));
        add(finest, stretch.firstCell, stretch.endCell());
    }

    /** Adds the finest buckets of the next packed row. */
    void add(List<Buckets> finest, long firstCell, long endCell) throws SQLException {
        levels.get(0).open = finest;
        for (int level = 1; level < Pyramid.LEVELS; level++) {
            int factor = (int) (Pyramid.widthNanos(level) / Pyramid.widthNanos(0));
            for (int c = 0; c < channels; c++) {
                levels.get(level).open.get(c).addFiner(finest.get(c), factor);
            }
        }
        for (int level = 0; level < Pyramid.LEVELS; level++) {
            Level l = levels.get(level);
            l.firstCell = l.firstCell == Long.MIN_VALUE ? firstCell : l.firstCell;
            // The finest level has one row for each packed row of readings, so that both are written together.
            if (level == 0 || Math.floorMod(endCell, Pyramid.rowCells(level)) == 0) {
                write(level, l, endCell);
            }
        }
    }

    /** Makes rows of what is open, in all levels. */
    void finish(long endCell) throws SQLException {
        for (int level = 0; level < Pyramid.LEVELS; level++) {
            Level l = levels.get(level);
            if (l.firstCell != Long.MIN_VALUE && l.firstCell < endCell) {
                write(level, l, endCell);
            }
        }
    }

    private void write(int level, Level l, long endCell) throws SQLException {
        int cells = (int) (endCell - l.firstCell);
        sink.row(new OverviewRow(level, l.firstCell, cells, codec.encode(level, l.firstCell, l.open)));
        l.open = Pyramid.empty(channels);
        l.firstCell = endCell;
    }
}
