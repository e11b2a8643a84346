package draftwitness.recording;

import java.sql.ResultSet;
import java.sql.SQLException;
import org.jspecify.annotations.Nullable;

/** One row of the table {@code stretch} as it stands in the file. The payload is not copied. */
final class StretchRow {
    static final String COLUMNS = "first_cell, cells, readings, late_cells, codec, crc32c, payload";

    private final long firstCell;
    private final int cells;
    private final int readings;
    private final long lateCells;
    private final int codec;
    private final long crc;
    private final byte[] payload;

    StretchRow(long firstCell, int cells, int readings, long lateCells, int codec, long crc, byte[] payload) {
        this.firstCell = firstCell;
        this.cells = cells;
        this.readings = readings;
        this.lateCells = lateCells;
        this.codec = codec;
        this.crc = crc;
        this.payload = payload;
    }

    static StretchRow of(ResultSet row) throws SQLException {
        byte @Nullable [] payload = row.getBytes(7);
        return new StretchRow(
                row.getLong(1),
                row.getInt(2),
                row.getInt(3),
                row.getLong(4),
                row.getInt(5),
                row.getLong(6),
                payload == null ? new byte[0] : payload);
    }

    long firstCell() {
        return firstCell;
    }

    int cells() {
        return cells;
    }

    int readings() {
        return readings;
    }

    int codec() {
        return codec;
    }

    /** The bytes themselves, not a copy. */
    byte[] payload() {
        return payload;
    }

    long endCell() {
        return firstCell + cells;
    }

    boolean intact() {
        return crc == Checksum.of(firstCell, cells, readings, lateCells, codec, payload);
    }
}
