package draftwitness.recording.parquet;

import draftwitness.recording.parquet.ParquetColumn.Kind;
import java.io.IOException;
import java.io.OutputStream;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import org.apache.parquet.column.ColumnDescriptor;
import org.apache.parquet.column.ColumnWriter;
import org.apache.parquet.column.ParquetProperties;
import org.apache.parquet.column.impl.ColumnWriteStoreV2;
import org.apache.parquet.column.page.PageWriteStore;
import org.apache.parquet.column.page.PageWriter;
import org.apache.parquet.format.ColumnChunk;
import org.apache.parquet.format.ColumnOrder;
import org.apache.parquet.format.FileMetaData;
import org.apache.parquet.format.KeyValue;
import org.apache.parquet.format.RowGroup;
import org.apache.parquet.format.TypeDefinedOrder;
import org.apache.parquet.format.Util;
import org.apache.parquet.schema.MessageType;

/**
 * Writes a table as Parquet. The library packs the values and writes the headers; this class places the pages:
 *
 * <pre>
 * "PAR1"
 * each group of rows: each column's pages (version 2; counts as DELTA_BINARY_PACKED, then Zstandard; CRC-32)
 * the file's description (Thrift compact protocol), its length (4 bytes, lowest first), "PAR1"
 * </pre>
 *
 * <p>All values are 64-bit integers with a logical type. Memory is bounded by one group of rows. One owner thread.
 */
public final class ParquetSink implements AutoCloseable {
    static final byte[] MAGIC = "PAR1".getBytes(StandardCharsets.US_ASCII);

    private static final int ROWS_A_GROUP = 1 << 18;
    private static final int ROWS_A_PAGE = 1 << 15;

    private final OutputStream out;
    private final String madeBy;
    private final List<ParquetColumn> columns;
    private final Map<String, String> notes;
    private final MessageType schema;
    private final ParquetProperties properties = ParquetProperties.builder()
            .withWriterVersion(ParquetProperties.WriterVersion.PARQUET_2_0)
            .withDictionaryEncoding(false)
            .withPageRowCountLimit(ROWS_A_PAGE)
            .withSizeStatisticsEnabled(false)
            .build();
    private final Compression compression = new Compression();
    private final List<RowGroup> groups = new ArrayList<>();
    private final ColumnWriter[] writers;
    private final ChunkWriter[] chunks;
    private final long[] row;
    private final boolean[] present;
    private ColumnWriteStoreV2 store;
    private long position;
    private int rowsInGroup;
    private long rows;

    /**
     * Begins a file.
     *
     * @param out from its first byte; stays open
     * @param madeBy the program's name and version
     * @param columns decimals and instants only
     * @param notes kept in the file, in their order
     */
    public ParquetSink(OutputStream out, String madeBy, List<ParquetColumn> columns, Map<String, String> notes)
            throws IOException {
        this.out = out;
        this.madeBy = madeBy;
        this.columns = List.copyOf(columns);
        this.notes = notes;
        this.schema = Schemas.message(this.columns);
        writers = new ColumnWriter[columns.size()];
        chunks = new ChunkWriter[columns.size()];
        row = new long[columns.size()];
        present = new boolean[columns.size()];
        write(MAGIC);
        store = beginGroup();
    }

    private ColumnWriteStoreV2 beginGroup() {
        for (int c = 0; c < chunks.length; c++) {
            chunks[c] = new ChunkWriter(schema.getColumns().get(c), compression);
        }
        ColumnWriteStoreV2 begun = new ColumnWriteStoreV2(schema, new Chunks(), properties);
        for (int c = 0; c < writers.length; c++) {
            writers[c] = begun.getColumnWriter(schema.getColumns().get(c));
        }
        return begun;
    }

    /** Finds the pages of a column. */
    private final class Chunks implements PageWriteStore {
        @Override
        public PageWriter getPageWriter(ColumnDescriptor column) {
            return chunks[schema.getColumns().indexOf(column)];
        }
    }

    /**
     * Sets a value of the open row.
     *
     * @throws IllegalArgumentException if it has more than {@value ParquetColumn#MOST_DIGITS} digits
     */
    public void put(int column, long count) {
        if (columns.get(column).kind() == Kind.DECIMAL && Math.abs(count) >= 1_000_000_000_000_000_000L) {
            throw new IllegalArgumentException(count + " has more than " + ParquetColumn.MOST_DIGITS + " digits");
        }
        row[column] = count;
        present[column] = true;
    }

    /** Ends the open row and opens the next. */
    public void endRow() throws IOException {
        for (int c = 0; c < writers.length; c++) {
            int level = columns.get(c).optional() ? 1 : 0;
            if (present[c]) {
                writers[c].write(row[c], 0, level);
            } else if (level == 1) {
                writers[c].writeNull(0, 0);
            } else {
                throw new IllegalStateException("no value for " + columns.get(c).name());
            }
        }
        Arrays.fill(present, false);
        store.endRecord();
        rows++;
        if (++rowsInGroup == ROWS_A_GROUP) {
            endGroup();
            store = beginGroup();
        }
    }

    private void endGroup() throws IOException {
        store.flush();
        store.close();
        if (rowsInGroup == 0) {
            return;
        }
        long start = position;
        long unpacked = 0;
        List<ColumnChunk> written = new ArrayList<>();
        for (ChunkWriter chunk : chunks) {
            written.add(chunk.writeTo(out, position));
            position += chunk.packedSize();
            unpacked += chunk.unpackedSize();
        }
        groups.add(new RowGroup(written, unpacked, rowsInGroup)
                .setFile_offset(start)
                .setTotal_compressed_size(position - start)
                .setOrdinal((short) groups.size()));
        rowsInGroup = 0;
    }

    /** Writes what is open and the file's end; nothing may follow. */
    public void finish() throws IOException {
        endGroup();
        FileMetaData about = new FileMetaData(2, Schemas.elements(columns), rows, groups);
        about.setCreated_by(madeBy);
        notes.forEach((key, value) -> about.addToKey_value_metadata(new KeyValue(key).setValue(value)));
        columns.forEach(c -> about.addToColumn_orders(ColumnOrder.TYPE_ORDER(new TypeDefinedOrder())));
        java.io.ByteArrayOutputStream end = new java.io.ByteArrayOutputStream();
        Util.writeFileMetaData(about, end);
        write(end.toByteArray());
        write(ByteBuffer.allocate(4)
                .order(ByteOrder.LITTLE_ENDIAN)
                .putInt(end.size())
                .array());
        write(MAGIC);
    }

    private void write(byte[] bytes) throws IOException {
        out.write(bytes);
        position += bytes.length;
    }

    /** Lets go of memory; the stream stays open. */
    @Override
    public void close() {
        store.close();
    }
}
