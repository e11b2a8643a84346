package draftwitness.recording;

import java.sql.PreparedStatement;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.util.List;
import org.jspecify.annotations.Nullable;

/** One row of the table {@code stretch} as it stands in the file. The payload is not copied. */
final class StretchRow {
    static final String COLUMNS =
            "first_cell, cells, readings, late_cells, first_event, events, codec, crc32c, payload";
    static final String INSERT = "INSERT INTO stretch(" + COLUMNS + ") VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?)";

    private final long firstCell;
    private final int cells;
    private final int readings;
    private final long lateCells;
    private final long firstEvent;
    private final int events;
    private final int codec;
    private final long crc;
    private final byte[] payload;

    /** A row as read, its checksum not compared yet. */
    private StretchRow(ResultSet row) throws SQLException {
        firstCell = row.getLong(1);
        cells = row.getInt(2);
        readings = row.getInt(3);
        lateCells = row.getLong(4);
        firstEvent = row.getLong(5);
        events = row.getInt(6);
        codec = row.getInt(7);
        crc = row.getLong(8);
        byte @Nullable [] bytes = row.getBytes(9);
        payload = bytes == null ? new byte[0] : bytes;
    }

    /** A row to be written. */
    StretchRow(Stretch stretch, long firstEvent, int events, int codec, byte[] payload) {
        this.firstCell = stretch.firstCell;
        this.cells = stretch.cells;
        this.readings = stretch.readings();
        this.lateCells = stretch.maxLate();
        this.firstEvent = firstEvent;
        this.events = events;
        this.codec = codec;
        this.payload = payload;
        this.crc = Checksum.of(this);
    }

    /** A row found in a raw page: its key, then columns as in {@link #COLUMNS}. */
    StretchRow(long key, List<@Nullable Object> values) {
        firstCell = key;
        cells = Math.toIntExact(Salvage.number(values, 1));
        readings = Math.toIntExact(Salvage.number(values, 2));
        lateCells = Salvage.number(values, 3);
        firstEvent = Salvage.number(values, 4);
        events = Math.toIntExact(Salvage.number(values, 5));
        codec = Math.toIntExact(Salvage.number(values, 6));
        crc = Salvage.number(values, 7);
        payload = Salvage.bytes(values, 8);
    }

    private StretchRow(long firstCell, int cells, long firstEvent, int events, int codec, byte[] payload) {
        this.firstCell = firstCell;
        this.cells = cells;
        this.readings = 0;
        this.lateCells = 0;
        this.firstEvent = firstEvent;
        this.events = events;
        this.codec = codec;
        this.payload = payload;
        this.crc = Checksum.of(this);
    }

    /** A row that stands for lost ones. */
    static StretchRow lost(long firstCell, int cells) {
        return new StretchRow(firstCell, cells, 0, 0, StretchCodec.LOST, new byte[0]);
    }

    /** This row without readings, with other events. */
    StretchRow withEvents(long first, int number) {
        return new StretchRow(firstCell, cells, first, number, codec, payload);
    }

    /** The row that takes this one's place when its readings are thinned away. */
    StretchRow thinned() {
        BitWriter out = new BitWriter();
        out.varint(readings);
        return new StretchRow(firstCell, cells, firstEvent, events, StretchCodec.THINNED, out.toArray());
    }

    static StretchRow of(ResultSet row) throws SQLException {
        return new StretchRow(row);
    }

    void insert(PreparedStatement insert) throws SQLException {
        insert.setLong(1, firstCell);
        insert.setInt(2, cells);
        insert.setInt(3, readings);
        insert.setLong(4, lateCells);
        insert.setLong(5, firstEvent);
        insert.setInt(6, events);
        insert.setInt(7, codec);
        insert.setLong(8, crc);
        insert.setBytes(9, payload);
        insert.executeUpdate();
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

    long lateCells() {
        return lateCells;
    }

    /** Number of the first event that travelled in this stretch, or would have. */
    long firstEvent() {
        return firstEvent;
    }

    int events() {
        return events;
    }

    int codec() {
        return codec;
    }

    long crc() {
        return crc;
    }

    /** The bytes themselves, not a copy. */
    byte[] payload() {
        return payload;
    }

    long endCell() {
        return firstCell + cells;
    }

    boolean intact() {
        return crc == Checksum.of(this);
    }
}
