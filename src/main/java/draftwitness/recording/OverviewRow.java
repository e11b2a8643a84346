package draftwitness.recording;

import java.sql.PreparedStatement;
import java.sql.ResultSet;
import java.sql.SQLException;
import org.jspecify.annotations.Nullable;

/** One row of an overview table as it stands in the file. The payload is not copied. */
final class OverviewRow {
    static final String COLUMNS = "first_cell, cells, crc32c, payload";

    private final int level;
    private final long firstCell;
    private final int cells;
    private final long crc;
    private final byte[] payload;

    /** A row to be written. */
    OverviewRow(int level, long firstCell, int cells, byte[] payload) {
        this.level = level;
        this.firstCell = firstCell;
        this.cells = cells;
        this.payload = payload;
        this.crc = Checksum.of(this);
    }

    private OverviewRow(int level, ResultSet row) throws SQLException {
        this.level = level;
        firstCell = row.getLong(1);
        cells = row.getInt(2);
        crc = row.getLong(3);
        byte @Nullable [] bytes = row.getBytes(4);
        payload = bytes == null ? new byte[0] : bytes;
    }

    /** A row as read, its checksum not compared yet. */
    static OverviewRow of(int level, ResultSet row) throws SQLException {
        return new OverviewRow(level, row);
    }

    static String insert(int level) {
        return "INSERT INTO " + Pyramid.table(level) + "(" + COLUMNS + ") VALUES (?, ?, ?, ?)";
    }

    void insert(PreparedStatement insert) throws SQLException {
        insert.setLong(1, firstCell);
        insert.setInt(2, cells);
        insert.setLong(3, crc);
        insert.setBytes(4, payload);
        insert.executeUpdate();
    }

    int level() {
        return level;
    }

    long firstCell() {
        return firstCell;
    }

    int cells() {
        return cells;
    }

    long endCell() {
        return firstCell + cells;
    }

    long crc() {
        return crc;
    }

    /** The bytes themselves, not a copy. */
    byte[] payload() {
        return payload;
    }

    boolean intact() {
        return crc == Checksum.of(this);
    }
}
