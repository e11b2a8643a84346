package draftwitness.recording.parquet;

import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.channels.FileChannel;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.apache.parquet.column.ColumnDescriptor;
import org.apache.parquet.column.impl.ColumnReadStoreImpl;
import org.apache.parquet.column.page.PageReadStore;
import org.apache.parquet.column.page.PageReader;
import org.apache.parquet.format.ColumnMetaData;
import org.apache.parquet.format.FileMetaData;
import org.apache.parquet.format.KeyValue;
import org.apache.parquet.format.RowGroup;
import org.apache.parquet.format.SchemaElement;
import org.apache.parquet.format.Util;
import org.apache.parquet.io.ParquetDecodingException;
import org.apache.parquet.schema.MessageType;

/**
 * Reads a table row by row from a Parquet file of any writer: flat columns, pages of both versions, uncompressed or
 * packed with Snappy, GZIP, Zstandard or raw LZ4. Memory is bounded by one page a column. One owner thread.
 *
 * <p>A file that is damaged or made to hurt comes out as {@link IOException}, whatever the library runs into on it:
 * indexes out of bounds, and arrays of a size that no memory holds, since it believes the sizes that it finds.
 */
public final class ParquetSource implements AutoCloseable {
    private static final int BIGGEST_END = 1 << 26;

    private final FileChannel file;
    private final FileMetaData about;
    private final MessageType schema;
    private final List<ParquetColumn> columns;
    private final Values[] values;
    private int group = -1;
    private long leftInGroup;
    private long row;

    private ParquetSource(FileChannel file, FileMetaData about, List<SchemaElement> elements) {
        this.file = file;
        this.about = about;
        schema = Schemas.stored(elements);
        columns = elements.stream().map(Schemas::column).toList();
        values = new Values[elements.size()];
        for (int c = 0; c < values.length; c++) {
            values[c] = new Values(elements.get(c), columns.get(c));
        }
    }

    /** True if the file begins as Parquet does. */
    public static boolean isOne(Path path) throws IOException {
        try (FileChannel file = FileChannel.open(path, StandardOpenOption.READ)) {
            return file.size() >= 4 && Arrays.equals(bytes(file, 0, 4), ParquetSink.MAGIC);
        }
    }

    /**
     * Opens a file and reads its description.
     *
     * @throws IOException if it cannot be read, is damaged, or has columns within columns
     */
    public static ParquetSource open(Path path) throws IOException {
        FileChannel file = FileChannel.open(path, StandardOpenOption.READ);
        try {
            return guarded(() -> open(file));
        } catch (IOException e) {
            file.close();
            throw e;
        }
    }

    private static ParquetSource open(FileChannel file) throws IOException {
        long size = file.size();
        if (size < 12 || !Arrays.equals(bytes(file, size - 4, 4), ParquetSink.MAGIC)) {
            throw new IOException("it does not end as a Parquet file does; it is cut off");
        }
        int length = ByteBuffer.wrap(bytes(file, size - 8, 4))
                .order(ByteOrder.LITTLE_ENDIAN)
                .getInt();
        if (length < 0 || length > size - 12 || length > BIGGEST_END) {
            throw new IOException("its end is damaged");
        }
        FileMetaData about = Util.readFileMetaData(new ByteArrayInputStream(bytes(file, size - 8 - length, length)));
        List<SchemaElement> elements = about.getSchema();
        if (elements.isEmpty() || elements.get(0).getNum_children() != elements.size() - 1) {
            throw new IOException("it has columns within columns; a table of readings is flat");
        }
        List<SchemaElement> leaves = elements.subList(1, elements.size());
        for (SchemaElement leaf : leaves) {
            if (!leaf.isSetType()
                    || leaf.getNum_children() > 0
                    || "REPEATED".equals(String.valueOf(leaf.getRepetition_type()))) {
                throw new IOException("column " + leaf.getName() + " holds lists; a table of readings is flat");
            }
        }
        return new ParquetSource(file, about, leaves);
    }

    private interface Work<T> {
        T run() throws IOException;
    }

    /** Runs library code on bytes of unknown origin. */
    private static <T> T guarded(Work<T> work) throws IOException {
        try {
            return work.run();
        } catch (UncheckedIOException e) {
            throw e.getCause();
        } catch (ParquetDecodingException e) {
            throw e.getCause() instanceof UncheckedIOException inner
                    ? inner.getCause()
                    : new IOException("it is damaged", e);
        } catch (RuntimeException e) {
            throw new IOException("it is damaged", e);
        } catch (OutOfMemoryError e) {
            throw new IOException("it asks for more memory than there is; it may be damaged", e);
        }
    }

    private static byte[] bytes(FileChannel file, long position, int size) throws IOException {
        ByteBuffer bytes = ByteBuffer.allocate(size);
        while (bytes.hasRemaining()) {
            if (file.read(bytes, position + bytes.position()) < 0) {
                throw new IOException("it ends early");
            }
        }
        return bytes.array();
    }

    public List<ParquetColumn> columns() {
        return columns;
    }

    /** Key and value texts kept in the file. */
    public Map<String, String> notes() {
        Map<String, String> notes = new LinkedHashMap<>();
        if (about.getKey_value_metadata() != null) {
            for (KeyValue note : about.getKey_value_metadata()) {
                notes.put(note.getKey(), note.getValue() == null ? "" : note.getValue());
            }
        }
        return notes;
    }

    /** Rows that the file says it has. */
    public long rows() {
        return about.getNum_rows();
    }

    /** Number of the present row, from 1; 0 before the first. */
    public long row() {
        return row;
    }

    /**
     * Goes to the next row.
     *
     * @return false at the end
     * @throws IOException if the file cannot be read or is damaged here
     */
    public boolean next() throws IOException {
        return guarded(this::advance);
    }

    private boolean advance() throws IOException {
        while (leftInGroup == 0) {
            if (++group >= about.getRow_groups().size()) {
                return false;
            }
            begin(about.getRow_groups().get(group));
        }
        for (Values v : values) {
            v.next();
        }
        leftInGroup--;
        row++;
        return true;
    }

    private void begin(RowGroup begun) throws IOException {
        leftInGroup = begun.getNum_rows();
        if (leftInGroup < 0 || begun.getColumns().size() != values.length) {
            throw new IOException("a group of rows is damaged");
        }
        if (leftInGroup == 0) {
            return;
        }
        Pages pages = new Pages(begun);
        ColumnReadStoreImpl store =
                new ColumnReadStoreImpl(pages, new NoConverter(), schema, String.valueOf(about.getCreated_by()));
        for (int c = 0; c < values.length; c++) {
            values[c].begin(store.getColumnReader(schema.getColumns().get(c)));
        }
    }

    /** The pages of a group of rows. */
    private final class Pages implements PageReadStore {
        private final RowGroup of;

        Pages(RowGroup of) {
            this.of = of;
        }

        @Override
        public PageReader getPageReader(ColumnDescriptor column) {
            int c = schema.getColumns().indexOf(column);
            ColumnMetaData chunk = of.getColumns().get(c).getMeta_data();
            try {
                if (chunk == null || chunk.getNum_values() != of.getNum_rows()) {
                    throw new IOException("column " + columns.get(c).name() + " is damaged, encrypted or elsewhere");
                }
                if (!Compression.knows(chunk.getCodec())) {
                    throw new IOException("it is compressed with " + chunk.getCodec()
                            + "; write it again with Zstandard, Snappy or GZIP");
                }
                return new ChunkReader(file, chunk, column.getPrimitiveType());
            } catch (IOException e) {
                throw new UncheckedIOException(e);
            }
        }

        @Override
        public long getRowCount() {
            return of.getNum_rows();
        }
    }

    /** True if the present row has a value in a column. */
    public boolean present(int column) {
        return values[column].present;
    }

    /** The value of the present row: {@code count / 10^decimals}. */
    public long count(int column) {
        return values[column].count;
    }

    /** Decimals of the value; fixed for a column unless it is {@code FLOATING}. */
    public int decimals(int column) {
        return values[column].decimals;
    }

    @Override
    public void close() throws IOException {
        file.close();
    }
}
