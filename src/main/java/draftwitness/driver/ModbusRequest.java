package draftwitness.driver;

import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * One question to a Modbus RTU instrument and how its answer is read. Immutable.
 *
 * <p>"MODBUS Application Protocol Specification V1.1b3" (2012), sections 6.1 to 6.4; "MODBUS over Serial Line
 * Specification and Implementation Guide V1.02" (2006), section 2.5.1.
 *
 * <pre>
 * request:  0 unit  1 function  2 first address (2, big endian)  4 how many (2)  6 CRC (2, low byte first)
 * answer:   0 unit  1 function  2 byte count  3 data ...                            CRC
 * refusal:  0 unit  1 function + 0x80  2 reason                                     CRC
 * </pre>
 */
final class ModbusRequest {

    /** What can be read, with its function code. */
    enum Table {
        HOLDING(3),
        INPUT(4),
        COIL(1),
        DISCRETE(2);

        private final int function;

        Table(int function) {
            this.function = function;
        }

        int function() {
            return function;
        }

        /** Whether entries are single bits rather than 16-bit registers. */
        boolean isBits() {
            return this == COIL || this == DISCRETE;
        }

        /** Most entries that one request can ask for. */
        int most() {
            return isBits() ? 2000 : 125;
        }
    }

    /**
     * One reading in the answer.
     *
     * @param index of the reading
     * @param field its coding; for bits an 8-bit number of which one bit counts
     * @param at offset into the answer's data
     */
    record Item(int index, ReadingSpec spec, NumberField field, int at) {}

    private static final int HEAD = 3;
    private static final int CRC_BYTES = 2;
    private static final int REFUSAL = 5;
    private static final Crc CRC = Crc.modbus();

    private final int unit;
    private final Table table;
    private final int address;
    private final int count;
    private final List<Item> items;

    ModbusRequest(int unit, Table table, int address, int count, List<Item> items) {
        this.unit = unit;
        this.table = table;
        this.address = address;
        this.count = count;
        this.items = List.copyOf(items);
    }

    /** The question's bytes. */
    byte[] bytes() {
        byte[] out = {
            (byte) unit,
            (byte) table.function(),
            (byte) (address >> 8),
            (byte) address,
            (byte) (count >> 8),
            (byte) count,
            0,
            0
        };
        long crc = CRC.of(out, 0, 6);
        out[6] = (byte) crc;
        out[7] = (byte) (crc >> 8);
        return out;
    }

    /** Bytes of data in a good answer. */
    int dataBytes() {
        return table.isBits() ? (count + 7) / 8 : 2 * count;
    }

    /** Length of the whole answer or refusal that the first {@code length} bytes begin; at least 5. */
    int expected(byte[] answer, int length) {
        boolean refusal = length >= 2 && (answer[1] & 0xFF) == (table.function() | 0x80);
        return refusal ? REFUSAL : HEAD + dataBytes() + CRC_BYTES;
    }

    /** Whether a frame could be the answer, or a refusal, by the first {@code length} bytes. */
    boolean mayAnswer(byte[] frame, int length) {
        boolean unitFits = length < 1 || (frame[0] & 0xFF) == unit;
        return unitFits && (length < 2 || (frame[1] & 0x7F) == table.function());
    }

    /** Says what the bytes of a good answer are. */
    void tellParts(int length, DecodeSink sink) {
        sink.part(0, 1, "unit id");
        sink.part(1, 1, "function");
        sink.part(2, 1, "byte count");
        for (Item item : items) {
            sink.part(HEAD + item.at(), item.field().type().bytes(), item.spec().name());
        }
        sink.part(length - CRC_BYTES, CRC_BYTES, "checksum");
    }

    /** Judges a frame that silence has ended, and stages its readings; gives why it is not the answer, or null. */
    @Nullable
    Fault read(byte[] frame, int length, Staged staged) {
        if (length < REFUSAL) {
            return Fault.PARTIAL;
        }
        if (CRC.of(frame, 0, length - CRC_BYTES) != WordOrder.LITTLE.bits(frame, length - CRC_BYTES, CRC_BYTES)) {
            return Fault.BAD_CHECKSUM;
        }
        int function = frame[1] & 0xFF;
        if ((frame[0] & 0xFF) != unit || length != expected(frame, length)) {
            return Fault.STRAY_ANSWER;
        }
        if (function == (table.function() | 0x80)) {
            return Fault.REFUSED;
        }
        if (function != table.function() || (frame[2] & 0xFF) != dataBytes()) {
            return Fault.STRAY_ANSWER;
        }
        for (Item item : items) {
            Fault fault =
                    item.field().stage(item.index(), item.spec(), item.spec().unit(), frame, HEAD + item.at(), staged);
            if (fault != null) {
                return fault;
            }
        }
        return null;
    }
}
