package draftwitness.driver;

import draftwitness.input.InputException;
import draftwitness.input.TomlTableReader;
import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;

/** Reads descriptions of the kind {@code frame}. Pure. */
final class FrameKind {
    private static final int LONGEST = 256;

    private FrameKind() {}

    static Plan read(TomlTableReader root) throws InputException {
        TomlTableReader frame = root.table("frame");
        WordOrder order = ReadingTables.choice(frame, "order", WordOrder.LITTLE);
        Wrapping wrapping = ReadingTables.choice(frame, "wrapping", Wrapping.NONE);
        byte[] sync = bytes(frame, "sync");
        byte[] tail = bytes(frame, "tail");
        FrameLayout.Length length = length(frame, order, sync.length + tail.length);
        Checksum checksum = Checksum.read(root.table("checksum"), order);
        List<ReadingSpec> specs = new ArrayList<>();
        List<FrameLayout.Place> places = places(root, order, length, specs);
        FrameLayout.Counter counter = counter(frame, order);
        FrameLayout layout = new FrameLayout(sync, tail, length, checksum, counter, places);
        if (wrapping != Wrapping.NONE) {
            return new Plan(specs, () -> new WrappedFrameDecoder(layout, wrapping)).counted(counter != null);
        }
        if (sync.length == 0 && !checksum.isPresent()) {
            throw frame.error("nothing tells where a message begins: give sync bytes, a [checksum] or a wrapping");
        }
        return new Plan(specs, () -> new FrameDecoder(layout)).counted(counter != null);
    }

    static byte[] bytes(TomlTableReader table, String key) throws InputException {
        List<Double> numbers = table.numbers(key);
        byte[] out = new byte[numbers.size()];
        for (int i = 0; i < out.length; i++) {
            double n = numbers.get(i);
            if (n != Math.rint(n) || n < 0 || n > 255) {
                throw table.error(key, "must be whole numbers from 0 to 255, such as [0xAA, 0x55]");
            }
            out[i] = (byte) (int) n;
        }
        return out;
    }

    private static FrameLayout.Length length(TomlTableReader frame, WordOrder order, int fixedBytes)
            throws InputException {
        int shortest = Math.max(1, fixedBytes);
        int fixed = (int) frame.integer("length", 0, 0, 4096);
        int at = (int) frame.integer("length-at", -1, -1, 4095);
        if ((fixed > 0) == (at >= 0)) {
            throw frame.error("give either 'length' or 'length-at'");
        }
        NumberType type = ReadingTables.choice(frame, "length-type", NumberType.UINT8);
        if (!type.isWhole()) {
            throw frame.error("length-type", "must be a whole number's type");
        }
        if (fixed > 0 && fixed < shortest) {
            throw frame.error("length", "is less than the sync and tail bytes alone");
        }
        int longest = (int) frame.integer("longest", Math.max(LONGEST, fixed), shortest, 4096);
        WordOrder lengthOrder = ReadingTables.choice(frame, "length-order", order);
        int add = (int) frame.integer("length-add", 0, -4096, 4096);
        int least = at < 0 ? shortest : Math.max(shortest, at + type.bytes());
        if (least > longest) {
            throw frame.error("longest", "is too short for the length field");
        }
        return new FrameLayout.Length(fixed, Math.max(at, 0), type, lengthOrder, add, least, Math.max(longest, fixed));
    }

    private static FrameLayout.@Nullable Counter counter(TomlTableReader frame, WordOrder order) throws InputException {
        TomlTableReader table = frame.table("counter");
        int at = (int) table.integer("at", -1, 0, 4095);
        NumberType type = ReadingTables.choice(table, "type", NumberType.UINT8);
        WordOrder own = ReadingTables.choice(table, "order", order);
        if (!type.isWhole()) {
            throw table.error("type", "a counter is a whole number");
        }
        return at < 0 ? null : new FrameLayout.Counter(at, type, own);
    }

    /** Places of the readings; also collects them into {@code specs}. */
    static List<FrameLayout.Place> places(
            TomlTableReader root, WordOrder order, FrameLayout.Length length, List<ReadingSpec> specs)
            throws InputException {
        List<FrameLayout.Place> places = new ArrayList<>();
        ReadingTables.forEach(root, (table, spec) -> {
            places.add(place(specs.size(), table, spec, order, length, -1));
            specs.add(spec);
        });
        return places;
    }

    static FrameLayout.Place place(
            int index,
            TomlTableReader table,
            ReadingSpec spec,
            WordOrder order,
            FrameLayout.Length length,
            int atByDefault)
            throws InputException {
        NumberField field = NumberField.read(table, spec, NumberType.INT16, order);
        if (atByDefault < 0 && !table.has("at")) {
            throw table.error("'at' is missing: the offset of the number in the message");
        }
        int at = (int) table.integer("at", atByDefault, -4096, 4095);
        int end = at < 0 ? -at : at + field.type().bytes();
        if (end > length.longest()
                || (length.fixed() > 0 && end > length.fixed())
                || (at < 0 && at + field.type().bytes() > 0)) {
            throw table.error("at", "the number does not fit into the message");
        }
        TomlTableReader when = table.table("when");
        int whenAt = (int) when.integer("at", -1, 0, 4095);
        int whenValue = (int) when.integer("value", 0, 0, 255);
        return new FrameLayout.Place(index, spec, field, at, table.bool("optional", false), whenAt, whenValue);
    }
}
