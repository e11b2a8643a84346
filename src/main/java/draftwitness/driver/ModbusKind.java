package draftwitness.driver;

import draftwitness.input.InputException;
import draftwitness.input.TomlTableReader;
import draftwitness.reading.Quantity;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;

/** Reads descriptions of the kind {@code modbus}. Pure. */
final class ModbusKind {

    /** A reading before it is put into a request. */
    private record Wanted(
            int index, ReadingSpec spec, NumberField field, ModbusRequest.Table table, int register, int entries) {
        int end() {
            return register + entries;
        }
    }

    private ModbusKind() {}

    static Plan read(TomlTableReader root) throws InputException {
        TomlTableReader modbus = root.table("modbus");
        int unitId = (int) modbus.integer("unit-id", 1, 1, 247);
        long silence = ModbusDecoder.silenceNanos((int) modbus.integer("baud", 9600, 300, 10_000_000));
        AskPace pace = pace(modbus, 0.2, 1.0, 0.5);
        int joinGap = (int) modbus.integer("join-gap", 0, 0, 124);
        List<ReadingSpec> specs = new ArrayList<>();
        List<Wanted> wanted = new ArrayList<>();
        ReadingTables.forEach(root, (table, spec) -> {
            wanted.add(wanted(table, spec, specs.size()));
            specs.add(spec);
        });
        List<ModbusRequest> requests = requests(unitId, wanted, joinGap);
        return new Plan(
                specs, () -> new ModbusDecoder(requests, pace, silence), () -> new ModbusListener(requests), null);
    }

    /** Reads {@code period timeout quiet}, in seconds. */
    static AskPace pace(TomlTableReader table, double period, double timeout, double quiet) throws InputException {
        return new AskPace(
                AskPace.nanos(table.number("period", period, 0.001, 3600)),
                AskPace.nanos(table.number("timeout", timeout, 0.001, 3600)),
                AskPace.nanos(table.number("quiet", quiet, 0.001, 3600)));
    }

    private static Wanted wanted(TomlTableReader table, ReadingSpec spec, int index) throws InputException {
        ModbusRequest.Table where = ReadingTables.choice(table, "table", ModbusRequest.Table.HOLDING);
        if (!table.has("register")) {
            throw table.error("'register' is missing: the address as sent, from 0");
        }
        int register = (int) table.integer("register", 0, 0, 65535);
        NumberField field =
                NumberField.read(table, spec, where.isBits() ? NumberType.UINT8 : NumberType.INT16, WordOrder.BIG);
        if (where.isBits()) {
            if (spec.unit().quantity() != Quantity.CONTACT) {
                throw table.error("unit", "a single bit is a contact: unit \"1\"");
            }
            return new Wanted(index, spec, field, where, register, 1);
        }
        if (field.type().bytes() % 2 != 0) {
            throw table.error("type", "registers hold 16 bits: use a type of 16, 32 or 64 bits");
        }
        int entries = field.type().bytes() / 2;
        if (register + entries > 65536) {
            throw table.error("register", "the number does not fit below 65536");
        }
        return new Wanted(index, spec, field, where, register, entries);
    }

    /** Neighbouring entries of one table are asked for together. */
    private static List<ModbusRequest> requests(int unitId, List<Wanted> wanted, int joinGap) {
        List<Wanted> sorted = new ArrayList<>(wanted);
        sorted.sort(Comparator.comparing(Wanted::table).thenComparingInt(Wanted::register));
        List<ModbusRequest> out = new ArrayList<>();
        List<Wanted> together = new ArrayList<>();
        int end = 0;
        for (Wanted one : sorted) {
            boolean joins = !together.isEmpty()
                    && together.get(0).table() == one.table()
                    && one.register() <= end + joinGap
                    && one.end() - together.get(0).register() <= one.table().most();
            if (!together.isEmpty() && !joins) {
                out.add(request(unitId, together));
                together.clear();
                end = 0;
            }
            together.add(one);
            end = Math.max(end, one.end());
        }
        out.add(request(unitId, together));
        return out;
    }

    private static ModbusRequest request(int unitId, List<Wanted> together) {
        ModbusRequest.Table table = together.get(0).table();
        int first = together.get(0).register();
        int end = together.stream().mapToInt(Wanted::end).max().orElseThrow();
        List<ModbusRequest.Item> items = new ArrayList<>();
        for (Wanted one : together) {
            int offset = one.register() - first;
            items.add(
                    table.isBits()
                            ? new ModbusRequest.Item(
                                    one.index(), one.spec(), one.field().atBit(offset % 8), offset / 8)
                            : new ModbusRequest.Item(one.index(), one.spec(), one.field(), 2 * offset));
        }
        return new ModbusRequest(unitId, table, first, end - first, items);
    }
}
