package draftwitness.driver;

import draftwitness.input.InputException;
import draftwitness.input.TomlTableReader;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.function.Supplier;

/** Reads descriptions of the kind {@code gatt}. Pure. */
final class GattKind {

    /** Longest value of a characteristic, by the Bluetooth Core Specification (from memory). */
    private static final int LONGEST = 512;

    private enum Form {
        BINARY,
        TEXT,
        PRESENTATION
    }

    private GattKind() {}

    static Plan read(TomlTableReader root) throws InputException {
        TomlTableReader gatt = root.table("gatt");
        List<TomlTableReader> tables = root.tables("characteristic");
        if (tables.isEmpty()) {
            throw root.error("at least one [[characteristic]] is needed");
        }
        List<LineKind.Entry> entries = LineKind.entries(root);
        List<GattNeeds.Characteristic> needs = new ArrayList<>();
        Map<String, Supplier<GattPart>> parts = new LinkedHashMap<>();
        int taken = 0;
        for (TomlTableReader table : tables) {
            Form form = ReadingTables.choice(table, "form", Form.BINARY);
            GattNeeds.Characteristic need = need(table, form);
            List<LineKind.Entry> mine = entriesOf(need.uuid(), entries, tables.size() == 1);
            if (mine.isEmpty()) {
                throw table.error("no [[reading]] belongs to it");
            }
            taken += mine.size();
            needs.add(need);
            if (parts.put(need.uuid(), part(root, table, form, mine)) != null) {
                throw table.error("uuid", "is used twice");
            }
        }
        if (taken < entries.size()) {
            throw root.error("a [[reading]] names a characteristic that is not described");
        }
        GattNeeds all = new GattNeeds(needs, gatt.bool("battery", true));
        return new Plan(LineKind.specs(entries), () -> decoder(parts), () -> decoder(parts), all);
    }

    private static Decoder decoder(Map<String, Supplier<GattPart>> parts) {
        Map<String, GattPart> made = new LinkedHashMap<>();
        parts.forEach((uuid, part) -> made.put(uuid, part.get()));
        return new GattDecoder(made);
    }

    private static GattNeeds.Characteristic need(TomlTableReader table, Form form) throws InputException {
        String uuid = uuid(table, "uuid", table.requiredString("uuid"));
        if (uuid.equals(GattNeeds.ANY) && form != Form.PRESENTATION) {
            throw table.error("uuid", "\"any\" needs form = \"presentation\"");
        }
        return new GattNeeds.Characteristic(
                uuid(table, "service", table.string("service").orElse(GattNeeds.ANY)),
                uuid,
                ReadingTables.choice(table, "get", GattNeeds.Get.NOTIFY),
                table.number("period", 1, 0.01, 3600),
                form == Form.PRESENTATION);
    }

    private static String uuid(TomlTableReader table, String key, String text) throws InputException {
        if (text.equals(GattNeeds.ANY)) {
            return text;
        }
        try {
            return GattNeeds.fullUuid(text);
        } catch (IllegalArgumentException e) {
            throw table.error(key, String.valueOf(e.getMessage()));
        }
    }

    private static List<LineKind.Entry> entriesOf(String uuid, List<LineKind.Entry> entries, boolean only)
            throws InputException {
        List<LineKind.Entry> mine = new ArrayList<>();
        for (LineKind.Entry entry : entries) {
            String named = entry.table().string("characteristic").orElse("");
            if (named.isEmpty() && !only) {
                throw entry.table().error("'characteristic' is missing: there are several");
            }
            if (named.isEmpty() || uuid(entry.table(), "characteristic", named).equals(uuid)) {
                mine.add(entry);
            }
        }
        return mine;
    }

    private static Supplier<GattPart> part(
            TomlTableReader root, TomlTableReader table, Form form, List<LineKind.Entry> mine) throws InputException {
        return switch (form) {
            case BINARY -> binary(root, table, mine);
            case TEXT -> text(root, mine);
            case PRESENTATION -> presentation(table, mine);
        };
    }

    private static Supplier<GattPart> binary(TomlTableReader root, TomlTableReader table, List<LineKind.Entry> mine)
            throws InputException {
        int exact = (int) table.integer("length", 0, 0, LONGEST);
        FrameLayout.Length length = new FrameLayout.Length(
                exact, -1, NumberType.UINT8, WordOrder.LITTLE, 0, 1, exact > 0 ? exact : LONGEST);
        List<FrameLayout.Place> places = new ArrayList<>();
        for (LineKind.Entry entry : mine) {
            FrameLayout.Place place =
                    FrameKind.place(entry.index(), entry.table(), entry.spec(), WordOrder.LITTLE, length, 0);
            places.add(entry.table().bool("signed", false) ? place.signed() : place);
        }
        byte[] sync = FrameKind.bytes(table, "sync");
        Checksum checksum = Checksum.read(root.table("checksum"), WordOrder.LITTLE);
        FrameLayout layout = new FrameLayout(sync, new byte[0], length, checksum, null, places);
        return () -> new GattPart.Binary(layout);
    }

    private static Supplier<GattPart> text(TomlTableReader root, List<LineKind.Entry> mine) throws InputException {
        TomlTableReader line = root.table("line");
        LineFormat format = LineKind.format(root, line, mine);
        Supplier<Decoder> lines = LineKind.decoder(line, format);
        return () -> new GattPart.Text(lines.get());
    }

    private static Supplier<GattPart> presentation(TomlTableReader table, List<LineKind.Entry> mine)
            throws InputException {
        if (mine.size() != 1) {
            throw table.error("form \"presentation\" carries exactly one reading");
        }
        LineKind.Entry entry = mine.get(0);
        TextReading text = TextReading.read(entry.table(), entry.spec(), false);
        boolean signed = entry.table().bool("signed", false);
        return () -> new GattPart.SelfDescribed(entry.index(), text, signed);
    }
}
