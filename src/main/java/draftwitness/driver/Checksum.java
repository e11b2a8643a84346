package draftwitness.driver;

import draftwitness.input.InputException;
import draftwitness.input.TomlTableReader;
import java.util.Map;
import java.util.TreeMap;
import org.jspecify.annotations.Nullable;

/**
 * The check that a binary message carries. Immutable.
 *
 * @param method how it is made
 * @param crc for {@link Method#CRC}, else null
 * @param bytes its length, 1 to 4
 * @param order its byte order
 * @param at where it stands; negative counts from the end
 * @param from first byte that it covers
 * @param to end (exclusive) of what it covers; zero or negative counts from the end
 * @param complement what is done to a sum at last
 */
record Checksum(
        Method method, @Nullable Crc crc, int bytes, WordOrder order, int at, int from, int to, Complement complement) {

    enum Method {
        NONE,
        SUM,
        XOR,
        CRC
    }

    enum Complement {
        NONE,
        /** All bits turned over. */
        ONES,
        /** Negated, so that sum and check add up to zero. */
        TWOS
    }

    static final Checksum ABSENT = new Checksum(Method.NONE, null, 0, WordOrder.BIG, 0, 0, 0, Complement.NONE);

    /** Parameters from the RevEng catalogue of parametrised CRC algorithms. */
    private static final Map<String, Crc> NAMED = new TreeMap<>(Map.ofEntries(
            Map.entry("crc-8/smbus", new Crc(8, 0x07, 0x00, false, false, 0x00)),
            Map.entry("crc-8/nrsc-5", new Crc(8, 0x31, 0xFF, false, false, 0x00)),
            Map.entry("crc-8/maxim-dow", new Crc(8, 0x31, 0x00, true, true, 0x00)),
            Map.entry("crc-16/modbus", new Crc(16, 0x8005, 0xFFFF, true, true, 0x0000)),
            Map.entry("crc-16/arc", new Crc(16, 0x8005, 0x0000, true, true, 0x0000)),
            Map.entry("crc-16/ibm-3740", new Crc(16, 0x1021, 0xFFFF, false, false, 0x0000)),
            Map.entry("crc-16/xmodem", new Crc(16, 0x1021, 0x0000, false, false, 0x0000)),
            Map.entry("crc-16/kermit", new Crc(16, 0x1021, 0x0000, true, true, 0x0000)),
            Map.entry("crc-16/ibm-sdlc", new Crc(16, 0x1021, 0xFFFF, true, true, 0xFFFF)),
            Map.entry("crc-32/iso-hdlc", new Crc(32, 0x04C11DB7L, 0xFFFFFFFFL, true, true, 0xFFFFFFFFL)),
            Map.entry("crc-32/iscsi", new Crc(32, 0x1EDC6F41L, 0xFFFFFFFFL, true, true, 0xFFFFFFFFL))));

    /** The CRC of that name, for tests and descriptions; null if there is none. */
    static @Nullable Crc named(String name) {
        return NAMED.get(name);
    }

    /** Reads the table {@code [checksum]}; absent means none. Keys of other methods may stand there too. */
    static Checksum read(TomlTableReader table, WordOrder orderByDefault) throws InputException {
        Method method = ReadingTables.choice(table, "method", Method.NONE);
        String name = table.string("name").orElse("");
        int declaredWidth = (int) table.integer("width", 8, 8, 32);
        Crc named = method == Method.CRC && !name.isEmpty() ? named(table, name) : null;
        int width = switch (method) {
            case NONE -> 0;
            case XOR -> 8;
            case SUM -> declaredWidth;
            case CRC -> named == null ? declaredWidth : named.width();
        };
        Crc parametrised = parametrised(table, Math.max(8, width), method == Method.CRC && named == null);
        int bytes = (width + 7) / 8;
        int at = (int) table.integer("at", -bytes, -4096, 4096);
        Checksum checksum = new Checksum(
                method,
                named == null ? parametrised : named,
                bytes,
                ReadingTables.choice(table, "order", orderByDefault),
                at,
                (int) table.integer("from", 0, 0, 4096),
                (int) table.integer("to", at, -4096, 4096),
                ReadingTables.choice(table, "complement", Complement.NONE));
        return method == Method.NONE ? ABSENT : checksum;
    }

    private static Crc named(TomlTableReader table, String name) throws InputException {
        Crc crc = NAMED.get(name);
        if (crc == null) {
            throw table.error(
                    "name",
                    "'" + name + "' is not one of: " + String.join(" ", NAMED.keySet())
                            + "; leave it out and give width, poly, init, reflect-in, reflect-out and xor-out");
        }
        return crc;
    }

    private static @Nullable Crc parametrised(TomlTableReader table, int width, boolean wanted) throws InputException {
        long max = (1L << width) - 1;
        long poly = table.integer("poly", 0, 0, max);
        long init = table.integer("init", 0, 0, max);
        boolean reflectIn = table.bool("reflect-in", false);
        boolean reflectOut = table.bool("reflect-out", false);
        long xorOut = table.integer("xor-out", 0, 0, max);
        if (wanted && poly == 0) {
            throw table.error("a CRC needs a name or a poly");
        }
        return wanted ? new Crc(width, poly, init, reflectIn, reflectOut, xorOut) : null;
    }

    boolean isPresent() {
        return method != Method.NONE;
    }

    /** Whether a message of {@code length} bytes carries the right check; false also if it has no room for one. */
    boolean agrees(byte[] message, int length) {
        if (method == Method.NONE) {
            return true;
        }
        int place = at < 0 ? length + at : at;
        int end = to <= 0 ? length + to : to;
        if (place < 0 || place + bytes > length || end > length || end < from) {
            return false;
        }
        return order.bits(message, place, bytes) == check(message, end);
    }

    private long check(byte[] message, int end) {
        if (crc != null) {
            return crc.of(message, from, end);
        }
        long check = 0;
        for (int i = from; i < end; i++) {
            int b = message[i] & 0xFF;
            check = method == Method.XOR ? check ^ b : check + b;
        }
        long mask = (1L << (8 * bytes)) - 1;
        return switch (complement) {
                    case NONE -> check;
                    case ONES -> ~check;
                    case TWOS -> -check;
                }
                & mask;
    }
}
