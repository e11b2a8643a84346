package draftwitness.recording;

import draftwitness.reading.SessionHeader;
import java.sql.PreparedStatement;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.util.ArrayList;
import java.util.List;

/**
 * Sums up a part of a recording from the coarsest rows that serve: a level's own rows as far as they reach, then the
 * next finer ones, at last the readings themselves. An overview row that is damaged or missing costs time only, since
 * what lies below it is read instead. One owner thread.
 */
final class OverviewReader {
    private final FileAccess access;
    private final long timeStepNanos;
    private final int channels;
    private final OverviewCodec codec;
    private final StretchCodec stretchCodec;

    OverviewReader(FileAccess access, SessionHeader header) {
        this.access = access;
        this.timeStepNanos = header.timeStepNanos();
        this.channels = header.channels().size();
        this.codec = new OverviewCodec(timeStepNanos, channels);
        this.stretchCodec = new StretchCodec(timeStepNanos, channels);
    }

    /**
     * Sums up the readings that travelled in a span of cells; at its ends whole rows are taken.
     *
     * @param onlyChannel position of the one channel wanted, or -1 for all
     * @param level the level of the buckets returned
     * @return buckets for each channel of the session
     */
    List<Buckets> read(int onlyChannel, int level, long firstCell, long endCell) throws RecordingException {
        List<Buckets> sum = Pyramid.empty(channels);
        long due = firstCell;
        for (int l = level; l >= 0; l--) {
            due = addRows(sum, onlyChannel, l, level, due, endCell);
        }
        addReadings(sum, onlyChannel, Pyramid.widthNanos(level), due, endCell);
        return sum;
    }

    /** Adds the rows of a level that go on from a cell without a hole; returns the cell where they end. */
    private long addRows(List<Buckets> sum, int onlyChannel, int from, int level, long firstCell, long endCell)
            throws RecordingException {
        long due = firstCell;
        for (OverviewRow row : rows(from, firstCell, endCell)) {
            boolean hole = row.firstCell() > due;
            if (hole && due != Long.MIN_VALUE) { // from the very beginning, wherever that is
                break;
            }
            if (row.endCell() <= due) {
                continue;
            }
            try {
                if (!row.intact()) {
                    break;
                }
                List<Buckets> part = codec.decode(row, onlyChannel);
                for (int c = 0; c < channels; c++) {
                    sum.get(c).addFiner(part.get(c), factor(from, level));
                }
            } catch (IndexOutOfBoundsException e) {
                break;
            }
            due = row.endCell();
        }
        return due;
    }

    private static int factor(int from, int level) {
        return (int) (Pyramid.widthNanos(level) / Pyramid.widthNanos(from));
    }

    private List<OverviewRow> rows(int level, long firstCell, long endCell) throws RecordingException {
        String table = Pyramid.table(level);
        return access.with(database -> {
            List<OverviewRow> rows = new ArrayList<>();
            try (PreparedStatement query = database.prepare("SELECT " + OverviewRow.COLUMNS + " FROM " + table
                    + " WHERE first_cell >= coalesce((SELECT max(first_cell) FROM " + table
                    + " WHERE first_cell <= ?1), ?1) AND first_cell < ?2 ORDER BY first_cell")) {
                query.setLong(1, firstCell);
                query.setLong(2, endCell);
                try (ResultSet result = query.executeQuery()) {
                    while (result.next()) {
                        rows.add(OverviewRow.of(level, result));
                    }
                }
            } catch (SQLException e) {
                return rows; // what cannot be read is taken from below
            }
            return rows;
        });
    }

    /** Adds the readings that travelled in cells from {@code firstCell} on. */
    void addReadings(List<Buckets> sum, int onlyChannel, long widthNanos, long firstCell, long endCell)
            throws RecordingException {
        StretchCursor cursor = new StretchCursor(access, stretchCodec, onlyChannel, firstCell, endCell);
        long due = firstCell;
        for (Stretch stretch = cursor.next(); stretch != null; stretch = cursor.next()) {
            for (Run run : stretch.runs) {
                int from = stretch.firstCell >= due ? 0 : run.firstFrom(due, timeStepNanos);
                sum.get(run.channel).add(run, from, run.size, timeStepNanos, widthNanos);
            }
            due = stretch.endCell();
        }
    }
}
