package draftwitness.recording.parquet;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.OutputStream;
import java.util.EnumSet;
import java.util.List;
import java.util.Set;
import java.util.zip.CRC32;
import org.apache.parquet.bytes.BytesInput;
import org.apache.parquet.column.ColumnDescriptor;
import org.apache.parquet.column.Encoding;
import org.apache.parquet.column.page.DictionaryPage;
import org.apache.parquet.column.page.PageWriter;
import org.apache.parquet.column.statistics.SizeStatistics;
import org.apache.parquet.column.statistics.Statistics;
import org.apache.parquet.format.ColumnChunk;
import org.apache.parquet.format.ColumnMetaData;
import org.apache.parquet.format.CompressionCodec;
import org.apache.parquet.format.DataPageHeaderV2;
import org.apache.parquet.format.PageHeader;
import org.apache.parquet.format.PageType;
import org.apache.parquet.format.Type;
import org.apache.parquet.format.Util;

/** Gathers the pages of one column in one group of rows, packed, until the group is written. One owner thread. */
final class ChunkWriter implements PageWriter {
    private final ColumnDescriptor column;
    private final Compression compression;
    private final ByteArrayOutputStream pages = new ByteArrayOutputStream();
    private final Set<org.apache.parquet.format.Encoding> encodings =
            EnumSet.noneOf(org.apache.parquet.format.Encoding.class);
    private final Statistics<?> statistics;
    private long values;
    private long unpackedSize;

    ChunkWriter(ColumnDescriptor column, Compression compression) {
        this.column = column;
        this.compression = compression;
        this.statistics = Statistics.createStats(column.getPrimitiveType());
    }

    @Override
    public void writePageV2(
            int rows,
            int nulls,
            int count,
            BytesInput repetitionLevels,
            BytesInput definitionLevels,
            Encoding encoding,
            BytesInput data,
            Statistics<?> ofPage)
            throws IOException {
        byte[] repetitions = bytesOf(repetitionLevels);
        byte[] definitions = bytesOf(definitionLevels);
        byte[] plain = bytesOf(data);
        byte[] packed = compression.pack(plain);
        boolean smaller = packed.length < plain.length;
        byte[] body = smaller ? packed : plain;
        int levels = repetitions.length + definitions.length;
        PageHeader header = new PageHeader(PageType.DATA_PAGE_V2, levels + plain.length, levels + body.length);
        header.setData_page_header_v2(
                new DataPageHeaderV2(count, nulls, rows, formatOf(encoding), definitions.length, repetitions.length)
                        .setIs_compressed(smaller));
        header.setCrc(crc(repetitions, definitions, body));
        int before = pages.size();
        Util.writePageHeader(header, pages);
        unpackedSize += pages.size() - before + levels + plain.length;
        pages.writeBytes(repetitions);
        pages.writeBytes(definitions);
        pages.writeBytes(body);
        values += count;
        encodings.add(formatOf(encoding));
        encodings.add(org.apache.parquet.format.Encoding.RLE); // the levels
        statistics.mergeStatistics(ofPage);
    }

    @Override
    public void writePageV2(
            int rows,
            int nulls,
            int count,
            BytesInput repetitionLevels,
            BytesInput definitionLevels,
            Encoding encoding,
            BytesInput data,
            Statistics<?> ofPage,
            SizeStatistics sizes)
            throws IOException {
        writePageV2(rows, nulls, count, repetitionLevels, definitionLevels, encoding, data, ofPage);
    }

    private static byte[] bytesOf(BytesInput input) throws IOException {
        ByteArrayOutputStream bytes = new ByteArrayOutputStream(Math.toIntExact(input.size()));
        input.writeAllTo(bytes);
        return bytes.toByteArray();
    }

    private static int crc(byte[]... parts) {
        CRC32 crc = new CRC32();
        for (byte[] part : parts) {
            crc.update(part);
        }
        return (int) crc.getValue();
    }

    private static org.apache.parquet.format.Encoding formatOf(Encoding encoding) {
        return org.apache.parquet.format.Encoding.valueOf(encoding.name());
    }

    /**
     * Writes the pages.
     *
     * @param offset where the stream stands in the file
     * @return what the file's end must say of them
     */
    ColumnChunk writeTo(OutputStream out, long offset) throws IOException {
        pages.writeTo(out);
        ColumnMetaData about = new ColumnMetaData(
                Type.INT64,
                List.copyOf(encodings),
                List.of(column.getPath()),
                CompressionCodec.ZSTD,
                values,
                unpackedSize,
                pages.size(),
                offset);
        org.apache.parquet.format.Statistics range = new org.apache.parquet.format.Statistics();
        range.setNull_count(statistics.getNumNulls());
        if (statistics.hasNonNullValue()) {
            range.setMin_value(statistics.getMinBytes());
            range.setMax_value(statistics.getMaxBytes());
        }
        about.setStatistics(range);
        return new ColumnChunk().setFile_offset(0).setMeta_data(about);
    }

    long packedSize() {
        return pages.size();
    }

    long unpackedSize() {
        return unpackedSize;
    }

    @Override
    @SuppressWarnings("deprecation") // the interface has it still
    public void writePage(BytesInput bytes, int count, Statistics<?> ofPage, Encoding r, Encoding d, Encoding v) {
        throw new IllegalStateException("pages of version 1 are not written");
    }

    @Override
    public void writePage(
            BytesInput bytes, int count, int rows, Statistics<?> ofPage, Encoding r, Encoding d, Encoding v) {
        throw new IllegalStateException("pages of version 1 are not written");
    }

    @Override
    public void writeDictionaryPage(DictionaryPage page) {
        throw new IllegalStateException("dictionaries are not written");
    }

    @Override
    public long getMemSize() {
        return pages.size();
    }

    @Override
    public long allocatedSize() {
        return pages.size();
    }

    @Override
    public String memUsageString(String prefix) {
        return prefix + " " + pages.size() + " bytes";
    }
}
