package draftwitness.recording;

import java.io.IOException;
import java.nio.BufferUnderflowException;
import java.nio.ByteBuffer;
import java.nio.channels.FileChannel;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * Finds records in the raw pages of a damaged database, without its tree: every leaf page is read for itself, in the
 * main file and in the log. Whether a record is genuine is for its checksum to say.
 *
 * <p>Layout: "Database File Format", sqlite.org/fileformat2.html, sections 1.6 (b-tree pages), 2.1 (records) and 4.1
 * (log frames). One owner thread.
 */
final class PageScan {
    private static final int PAGE = Schema.PAGE_BYTES;
    private static final int TABLE_LEAF = 0x0d;
    private static final int INDEX_LEAF = 0x0a;
    private static final int FILE_HEADER = 100;
    private static final int LOG_HEADER = 32;
    private static final int FRAME_HEADER = 24;
    private static final int MAX_PAYLOAD = 1 << 26;

    /** Takes a record. */
    interface Sink {
        /**
         * One record.
         *
         * @param key the row's integer key; 0 for a record of an index page
         * @param values Long, String, byte[] or null for each column
         */
        void found(long key, List<@Nullable Object> values);
    }

    private final FileChannel main;
    private final Sink sink;

    private PageScan(FileChannel main, Sink sink) {
        this.main = main;
        this.sink = sink;
    }

    /** Reads all pages of the file, then those of its log if it has one. */
    static void scan(Path file, Sink sink) throws IOException {
        try (FileChannel main = FileChannel.open(file, StandardOpenOption.READ)) {
            PageScan scan = new PageScan(main, sink);
            for (long at = 0; at + PAGE <= main.size(); at += PAGE) {
                scan.page(read(main, at), at == 0 ? FILE_HEADER : 0);
            }
            Path log = Database.beside(file, "-wal");
            if (Files.exists(log)) {
                scan.log(log);
            }
        }
    }

    private void log(Path log) throws IOException {
        try (FileChannel channel = FileChannel.open(log, StandardOpenOption.READ)) {
            for (long at = LOG_HEADER; at + FRAME_HEADER + PAGE <= channel.size(); at += FRAME_HEADER + PAGE) {
                long number = read(channel, at).getInt(0);
                page(read(channel, at + FRAME_HEADER), number == 1 ? FILE_HEADER : 0);
            }
        }
    }

    private static ByteBuffer read(FileChannel channel, long at) throws IOException {
        ByteBuffer page = ByteBuffer.allocate(PAGE);
        while (page.hasRemaining() && channel.read(page, at + page.position()) > 0) {
            // until the page is full or the file ends
        }
        return page.flip();
    }

    private void page(ByteBuffer page, int header) {
        int kind = page.limit() < PAGE ? 0 : page.get(header);
        if (kind != TABLE_LEAF && kind != INDEX_LEAF) {
            return;
        }
        int cells = page.getShort(header + 3) & 0xFFFF;
        for (int i = 0; i < cells && header + 10 + 2 * i <= PAGE; i++) {
            tryCell(page, page.getShort(header + 8 + 2 * i) & 0xFFFF, kind == TABLE_LEAF);
        }
    }

    /** Hands over the record at a place, if there is one. */
    private void tryCell(ByteBuffer page, int at, boolean table) {
        try {
            cell(page, at, table);
        } catch (IndexOutOfBoundsException | IllegalArgumentException | BufferUnderflowException | IOException e) {
            page.clear(); // not a record; the next one may be
        }
    }

    private void cell(ByteBuffer page, int at, boolean table) throws IOException {
        page.position(at);
        long length = varint(page);
        long key = table ? varint(page) : 0;
        if (length < 2 || length > MAX_PAYLOAD) {
            return;
        }
        sink.found(key, record(payload(page, (int) length, table)));
    }

    /** The record's bytes: part in the page, the rest in a chain of overflow pages of the main file. */
    private ByteBuffer payload(ByteBuffer page, int length, boolean table) throws IOException {
        int most = table ? PAGE - 35 : (PAGE - 12) * 64 / 255 - 23;
        int least = (PAGE - 12) * 32 / 255 - 23;
        int local = length;
        if (length > most) {
            int wanted = least + (length - least) % (PAGE - 4);
            local = wanted <= most ? wanted : least;
        }
        ByteBuffer whole = ByteBuffer.allocate(length);
        byte[] part = new byte[local];
        page.get(part);
        whole.put(part);
        long next = whole.hasRemaining() ? page.getInt() & 0xFFFF_FFFFL : 0;
        while (whole.hasRemaining()) {
            if (next == 0 || next * PAGE > main.size()) {
                throw new IndexOutOfBoundsException("the chain breaks off");
            }
            ByteBuffer overflow = read(main, (next - 1) * PAGE);
            next = overflow.getInt() & 0xFFFF_FFFFL;
            overflow.limit(Math.min(PAGE, 4 + whole.remaining()));
            whole.put(overflow);
        }
        return whole.flip();
    }

    private static List<@Nullable Object> record(ByteBuffer bytes) {
        int headerEnd = (int) varint(bytes);
        List<Long> types = new ArrayList<>();
        while (bytes.position() < headerEnd) {
            types.add(varint(bytes));
        }
        List<@Nullable Object> values = new ArrayList<>();
        for (long type : types) {
            values.add(value(bytes, type));
        }
        return values;
    }

    private static @Nullable Object value(ByteBuffer bytes, long type) {
        if (type >= 12) {
            byte[] content = new byte[Math.toIntExact((type - 12) / 2)];
            bytes.get(content);
            return type % 2 == 0 ? content : new String(content, StandardCharsets.UTF_8);
        }
        return switch ((int) type) {
            case 1 -> whole(bytes, 1);
            case 2 -> whole(bytes, 2);
            case 3 -> whole(bytes, 3);
            case 4 -> whole(bytes, 4);
            case 5 -> whole(bytes, 6);
            case 6 -> whole(bytes, 8);
            case 8 -> 0L;
            case 9 -> 1L;
            default -> null;
        };
    }

    private static Long whole(ByteBuffer bytes, int length) {
        long value = bytes.get(); // signed
        for (int i = 1; i < length; i++) {
            value = (value << 8) | (bytes.get() & 0xFF);
        }
        return value;
    }

    private static long varint(ByteBuffer bytes) {
        long value = 0;
        for (int i = 0; i < 8; i++) {
            byte b = bytes.get();
            value = (value << 7) | (b & 0x7F);
            if (b >= 0) {
                return value;
            }
        }
        return (value << 8) | (bytes.get() & 0xFF);
    }
}
