package draftwitness.recording.parquet;

import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.ByteBuffer;
import java.nio.channels.FileChannel;
import java.util.zip.CRC32;
import org.apache.parquet.bytes.BytesInput;
import org.apache.parquet.column.Encoding;
import org.apache.parquet.column.page.DataPage;
import org.apache.parquet.column.page.DataPageV1;
import org.apache.parquet.column.page.DataPageV2;
import org.apache.parquet.column.page.DictionaryPage;
import org.apache.parquet.column.page.PageReader;
import org.apache.parquet.column.statistics.Statistics;
import org.apache.parquet.format.ColumnMetaData;
import org.apache.parquet.format.DataPageHeader;
import org.apache.parquet.format.DataPageHeaderV2;
import org.apache.parquet.format.PageHeader;
import org.apache.parquet.format.PageType;
import org.apache.parquet.format.Util;
import org.apache.parquet.schema.PrimitiveType;
import org.jspecify.annotations.Nullable;

/**
 * Reads the pages of one column in one group of rows, one at a time. Whatever is wrong comes out as
 * {@link UncheckedIOException}, since the library's interface has no other way. One owner thread.
 */
final class ChunkReader implements PageReader {
    /** Pages have a megabyte as a rule. */
    private static final int BIGGEST_PAGE = 1 << 26;

    private static final int BIGGEST_HEADER = 1 << 16;

    private final FileChannel file;
    private final ColumnMetaData about;
    private final PrimitiveType type;
    private final long end;
    private long position;
    private @Nullable PageHeader header;
    private byte[] body = new byte[0];

    ChunkReader(FileChannel file, ColumnMetaData about, PrimitiveType type) throws IOException {
        this.file = file;
        this.about = about;
        this.type = type;
        long first = about.getData_page_offset();
        if (about.isSetDictionary_page_offset() && about.getDictionary_page_offset() > 0) {
            first = Math.min(first, about.getDictionary_page_offset());
        }
        position = first;
        end = first + about.getTotal_compressed_size();
        if (first < 4 || end < first || end > file.size()) {
            throw new IOException("a column lies outside the file");
        }
    }

    @Override
    public @Nullable DictionaryPage readDictionaryPage() {
        try {
            PageHeader next = peek();
            if (next == null || next.getType() != PageType.DICTIONARY_PAGE) {
                return null;
            }
            header = null;
            int number = next.getDictionary_page_header().getNum_values();
            byte[] bytes = Compression.unpack(about.getCodec(), body, 0, body.length, next.getUncompressed_page_size());
            if (number < 0 || number > bytes.length) {
                throw new IOException("a dictionary is shorter than it says");
            }
            return new DictionaryPage(BytesInput.from(bytes), number, Encoding.PLAIN);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    @Override
    public @Nullable DataPage readPage() {
        try {
            for (PageHeader next = peek(); next != null; next = peek()) {
                header = null;
                if (next.getType() == PageType.DATA_PAGE) {
                    return firstVersion(next);
                }
                if (next.getType() == PageType.DATA_PAGE_V2) {
                    return secondVersion(next);
                }
            }
            return null;
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    @Override
    public long getTotalValueCount() {
        return about.getNum_values();
    }

    /** Reads the next page, unless it was read already. */
    private @Nullable PageHeader peek() throws IOException {
        if (header != null || position >= end) {
            return header;
        }
        byte[] head = bytes((int) Math.min(BIGGEST_HEADER, end - position));
        ByteArrayInputStream in = new ByteArrayInputStream(head);
        PageHeader next = Util.readPageHeader(in);
        position += head.length - in.available();
        int size = next.getCompressed_page_size();
        int unpacked = next.getUncompressed_page_size();
        if (size < 0 || size > end - position || unpacked < 0 || unpacked > BIGGEST_PAGE || size > BIGGEST_PAGE) {
            throw new IOException("a page of " + size + " bytes, " + unpacked + " unpacked");
        }
        body = bytes(size);
        position += size;
        if (next.isSetCrc()) {
            CRC32 crc = new CRC32();
            crc.update(body);
            if ((int) crc.getValue() != next.getCrc()) {
                throw new IOException("a page's checksum is wrong");
            }
        }
        header = next;
        return next;
    }

    private byte[] bytes(int size) throws IOException {
        ByteBuffer bytes = ByteBuffer.allocate(size);
        while (bytes.hasRemaining()) {
            if (file.read(bytes, position + bytes.position()) < 0) {
                throw new IOException("the file ends early");
            }
        }
        return bytes.array();
    }

    private DataPage firstVersion(PageHeader next) throws IOException {
        DataPageHeader h = next.getData_page_header();
        byte[] bytes = Compression.unpack(about.getCodec(), body, 0, body.length, next.getUncompressed_page_size());
        return new DataPageV1(
                BytesInput.from(bytes),
                number(h.getNum_values()),
                bytes.length,
                Statistics.createStats(type),
                encoding(h.getRepetition_level_encoding()),
                encoding(h.getDefinition_level_encoding()),
                encoding(h.getEncoding()));
    }

    private DataPage secondVersion(PageHeader next) throws IOException {
        DataPageHeaderV2 h = next.getData_page_header_v2();
        int repetitions = h.getRepetition_levels_byte_length();
        int levels = repetitions + h.getDefinition_levels_byte_length();
        if (repetitions < 0
                || levels < repetitions
                || levels > body.length
                || levels > next.getUncompressed_page_size()) {
            throw new IOException("a page's levels are longer than the page");
        }
        int packed = body.length - levels;
        byte[] data = h.isIs_compressed()
                ? Compression.unpack(about.getCodec(), body, levels, packed, next.getUncompressed_page_size() - levels)
                : java.util.Arrays.copyOfRange(body, levels, body.length);
        return DataPageV2.uncompressed(
                number(h.getNum_rows()),
                number(h.getNum_nulls()),
                number(h.getNum_values()),
                BytesInput.from(body, 0, repetitions),
                BytesInput.from(body, repetitions, levels - repetitions),
                encoding(h.getEncoding()),
                BytesInput.from(data),
                Statistics.createStats(type));
    }

    private int number(int values) throws IOException {
        if (values < 0 || values > about.getNum_values()) {
            throw new IOException("a page of " + values + " values");
        }
        return values;
    }

    private static Encoding encoding(org.apache.parquet.format.Encoding encoding) {
        return Encoding.valueOf(encoding.name());
    }
}
