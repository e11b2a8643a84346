package draftwitness.recording;

import draftwitness.reading.SessionHeader;
import java.sql.PreparedStatement;
import java.sql.SQLException;
import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * Writes stretches as rows. A live recording gets a small row a second, so that little is lost in a power cut; once a
 * minute these are replaced by one well-packed row, together with its overview, in the same transaction as the row of
 * that second. In bulk, packed rows are written at once. One owner thread.
 */
final class RowWriter {
    /** A packed row is closed early when it has so many readings. */
    private static final int MOST_READINGS = 1 << 16;

    private final boolean bulk;
    private final int channels;
    private final StretchCodec codec;
    private final OverviewBuilder overview;
    private final List<PreparedStatement> insertOverview = new ArrayList<>();
    private final PreparedStatement insert;
    private final PreparedStatement delete;
    /** What stands in the file as rows of a second. */
    private final List<Stretch> loose = new ArrayList<>();

    private final @Nullable Thinner thinner;
    private int looseReadings;
    private long endCell;
    private long readings;

    /**
     * Prepares the statements.
     *
     * @param policy what stays at full rate, or null for everything
     */
    RowWriter(Database database, SessionHeader header, boolean bulk, @Nullable KeepPolicy policy)
            throws RecordingException {
        thinner = policy == null ? null : new Thinner(policy, database);
        this.bulk = bulk;
        channels = header.channels().size();
        codec = new StretchCodec(header.timeStepNanos(), channels);
        overview = new OverviewBuilder(header, row -> row.insert(insertOverview.get(row.level())));
        for (int level = 0; level < Pyramid.LEVELS; level++) {
            insertOverview.add(database.prepare(OverviewRow.insert(level)));
        }
        insert = database.prepare(StretchRow.INSERT);
        delete = database.prepare("DELETE FROM stretch WHERE first_cell >= ? AND first_cell < ?");
    }

    /** True if a packed row should end before this cell, given the readings that wait for it. */
    static boolean packedRowEnds(long nextCell, int waiting) {
        return Math.floorMod(nextCell, Pyramid.PACK_CELLS) == 0 || waiting >= MOST_READINGS;
    }

    /** Writes the next stretch, whose {@code firstEvent} and {@code events} are set. */
    void write(Stretch stretch) throws SQLException, RecordingException {
        endCell = stretch.endCell();
        int number = stretch.readings();
        readings += number;
        loose.add(stretch);
        looseReadings += number;
        if (bulk || packedRowEnds(endCell, looseReadings)) {
            pack(false);
        } else {
            insert(stretch, StretchCodec.RICE);
        }
    }

    /** Writes a row without readings, and what is left of its overview. */
    void writeEmpty(StretchRow row, List<Buckets> left) throws SQLException, RecordingException {
        if (!loose.isEmpty()) {
            pack(false);
        }
        row.insert(insert);
        overview.add(left, row.firstCell(), row.endCell());
        endCell = row.endCell();
        readings += row.codec() == StretchCodec.THINNED ? new BitReader(row.payload()).varint() : 0;
    }

    /** Packs what is loose and writes the overview to its end. */
    void finish() throws SQLException, RecordingException {
        if (!loose.isEmpty()) {
            pack(true);
        } else {
            overview.finish(endCell);
        }
    }

    private void pack(boolean last) throws SQLException, RecordingException {
        Stretch all = Stretch.join(loose, channels);
        if (!bulk) {
            delete.setLong(1, all.firstCell);
            delete.setLong(2, all.endCell());
            delete.executeUpdate();
        }
        insert(all, StretchCodec.ANS);
        overview.add(all);
        loose.clear();
        looseReadings = 0;
        if (last) {
            overview.finish(endCell);
        }
        if (thinner != null) {
            thinner.packed(all.firstCell, all.endCell());
        }
    }

    private void insert(Stretch stretch, int codecNumber) throws SQLException {
        new StretchRow(stretch, stretch.firstEvent, stretch.events, codecNumber, codec.encode(stretch, codecNumber))
                .insert(insert);
    }

    /** Keeps a span at full rate, where a policy would thin it. */
    void claim(long fromNanos, long toNanos) {
        if (thinner != null) {
            thinner.claim(fromNanos, toNanos);
        }
    }

    /** True when a policy's budget is used up and nothing can be thinned any more. */
    boolean overBudget() {
        return thinner != null && thinner.overBudget();
    }

    /** Number after the last cell's; 0 before the first. */
    long endCell() {
        return endCell;
    }

    long readings() {
        return readings;
    }

    void close() throws SQLException {
        insert.close();
        delete.close();
        if (thinner != null) {
            thinner.close();
        }
        for (PreparedStatement statement : insertOverview) {
            statement.close();
        }
    }
}
