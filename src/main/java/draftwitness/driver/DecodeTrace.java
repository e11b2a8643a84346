package draftwitness.driver;

import draftwitness.reading.Chunk;
import draftwitness.reading.Decimal;
import draftwitness.reading.Unit;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;

/**
 * What a driver makes of given bytes, offset by offset: every byte is in exactly one row. Immutable; any thread.
 *
 * @param rows in the order of the bytes
 * @param readings how many readings came out
 */
public record DecodeTrace(List<Row> rows, int readings) {

    /** What became of a row's bytes. */
    public enum Fate {
        /** A whole, good message. */
        MESSAGE,
        /** Nothing is meant by them. */
        FILLER,
        /** They were dropped, for the reason given. */
        SKIPPED,
        /** The input ended within a message. */
        HELD
    }

    /**
     * Some bytes that share a fate.
     *
     * @param offset of the first one, from the start of the input
     * @param length at least 1
     * @param what the readings, or the reason, in plain words
     * @param parts what is where within a binary message; empty for text
     */
    public record Row(int offset, int length, Fate fate, String what, List<Part> parts) {
        public Row {
            parts = List.copyOf(parts);
        }
    }

    /**
     * Some bytes within a binary message.
     *
     * @param offset of the first one, from the start of the input
     */
    public record Part(int offset, int length, String what) {}

    private static final int PER_LINE = 16;

    public DecodeTrace {
        rows = List.copyOf(rows);
    }

    /**
     * Decodes the bytes as if they had arrived at once. A driver that asks is taken to hear the answers.
     *
     * @param endpoint where they come from, for drivers of devices with several endpoints; empty for the driver's first
     */
    public static DecodeTrace of(Driver driver, byte[] bytes, String endpoint) {
        String first = driver.gatt().map(g -> g.characteristics().get(0).uuid()).orElse("");
        Decoder decoder = driver.newListener();
        Collector collector = new Collector(driver);
        decoder.decode(new Chunk(bytes, 0, bytes.length, 0, endpoint.isEmpty() ? first : endpoint), collector);
        if (decoder.held() > 0) {
            collector.row(decoder.held(), Fate.HELD, "the rest of this message is missing");
        }
        return new DecodeTrace(collector.rows, collector.readings);
    }

    /** Bytes of the rows with this fate. */
    public int bytes(Fate fate) {
        return rows.stream().filter(r -> r.fate() == fate).mapToInt(Row::length).sum();
    }

    /**
     * The trace as lines of text: offset, bytes in hexadecimal and as characters, fate.
     *
     * @param bytes those that were traced
     */
    public List<String> lines(byte[] bytes) {
        List<String> out = new ArrayList<>();
        for (Row row : rows) {
            String word = row.fate().name().toLowerCase(Locale.ROOT);
            append(out, bytes, row.offset(), row.length(), word + (row.what().isEmpty() ? "" : ": " + row.what()));
            for (Part part : row.parts()) {
                append(out, bytes, part.offset(), part.length(), "  " + part.what());
            }
        }
        return out;
    }

    private static void append(List<String> out, byte[] bytes, int offset, int length, String what) {
        for (int at = offset; at < offset + length; at += PER_LINE) {
            int n = Math.min(PER_LINE, offset + length - at);
            StringBuilder hex = new StringBuilder();
            StringBuilder text = new StringBuilder();
            for (int i = at; i < at + n; i++) {
                hex.append(String.format("%02X ", bytes[i] & 0xFF));
                text.append(bytes[i] >= ' ' && bytes[i] < 0x7F ? (char) bytes[i] : '.');
            }
            out.add(String.format("%06X  %-48s %-16s  %s", at, hex, text, at == offset ? what : "")
                    .stripTrailing());
        }
    }

    /** Puts what the decoder says into rows; one thread. */
    private static final class Collector implements DecodeSink {
        private final Driver driver;
        private final List<Row> rows = new ArrayList<>();
        private final List<String> said = new ArrayList<>();
        private final List<Part> parts = new ArrayList<>();
        private int offset;
        private int readings;

        Collector(Driver driver) {
            this.driver = driver;
        }

        private void row(int length, Fate fate, String what) {
            if (length > 0) {
                parts.sort(Comparator.comparingInt(Part::offset));
                rows.add(new Row(offset, length, fate, what, parts));
                parts.clear();
                offset += length;
            }
        }

        @Override
        public void reading(int index, Decimal value, Unit unit, long arrivalNanos) {
            readings++;
            said.add(driver.readings().get(index).name() + " " + value + " " + unit.symbol());
        }

        @Override
        public void counter(long value, int bits) {
            said.add("counter " + value);
        }

        @Override
        public void battery(int percent) {
            said.add("battery " + percent + " %");
        }

        @Override
        public void fault(Fault fault, int bytes) {
            if (bytes == 0) {
                said.add(fault.words());
            } else {
                said.clear();
                row(bytes, Fate.SKIPPED, fault.words());
            }
        }

        @Override
        public void message(int bytes) {
            row(bytes, Fate.MESSAGE, said.isEmpty() ? "no reading of this driver in it" : String.join(", ", said));
            said.clear();
        }

        @Override
        public void filler(int bytes) {
            row(bytes, Fate.FILLER, "");
        }

        @Override
        public boolean wantsParts() {
            return true;
        }

        @Override
        public void part(int partOffset, int length, String what) {
            parts.add(new Part(offset + partOffset, length, what));
        }
    }
}
