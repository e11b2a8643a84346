package draftwitness.driver;

import draftwitness.input.InputException;
import draftwitness.input.TomlTableReader;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.function.Supplier;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;

/** Reads descriptions of the kind {@code line}. Pure. */
final class LineKind {
    private static final int LONGEST = 256;

    private LineKind() {}

    static Plan read(TomlTableReader root) throws InputException {
        TomlTableReader line = root.table("line");
        List<Entry> entries = entries(root);
        LineFormat format = format(root, line, entries);
        return new Plan(specs(entries), decoder(line, format)).counted(format.isCounted());
    }

    /** Makes decoders for lines of that format; reads {@code longest end ignore}. */
    static Supplier<Decoder> decoder(TomlTableReader line, LineJudge format) throws InputException {
        int longest = (int) line.integer("longest", LONGEST, 8, 4096);
        LineEnd end = ReadingTables.choice(line, "end", LineEnd.ANY);
        List<Pattern> ignored = new ArrayList<>();
        for (String text : line.strings("ignore")) {
            ignored.add(ReadingTables.pattern(line, "ignore", text));
        }
        List<Pattern> patterns = List.copyOf(ignored);
        return () -> new LineDecoder(format, patterns, longest, end);
    }

    /** One {@code [[reading]]} with its index. */
    record Entry(int index, TomlTableReader table, ReadingSpec spec) {}

    static List<Entry> entries(TomlTableReader root) throws InputException {
        List<Entry> entries = new ArrayList<>();
        ReadingTables.forEach(root, (table, spec) -> entries.add(new Entry(entries.size(), table, spec)));
        return entries;
    }

    static List<ReadingSpec> specs(List<Entry> entries) {
        return entries.stream().map(Entry::spec).toList();
    }

    /** Where these readings stand in a line. */
    static LineFormat format(TomlTableReader root, TomlTableReader line, List<Entry> entries) throws InputException {
        LineFormat.Separator separator = ReadingTables.choice(line, "separator", LineFormat.Separator.NONE);
        boolean comma = line.bool("decimal-comma", false);
        if (comma && separator == LineFormat.Separator.COMMA) {
            throw line.error("decimal-comma", "cannot go with separator \"comma\"");
        }
        String text = line.string("pattern").orElse("");
        Pattern pattern = text.isEmpty() ? null : ReadingTables.pattern(line, "pattern", text);
        if (pattern != null && separator != LineFormat.Separator.NONE) {
            throw line.error("pattern", "cannot go with a separator");
        }
        int columns = (int) line.integer("columns", 0, 0, 64);
        List<LineFormat.Place> places = new ArrayList<>();
        Map<String, Integer> byName = new HashMap<>();
        for (Entry entry : entries) {
            byName.put(entry.spec().name(), places.size());
            places.add(place(entry, comma, pattern));
        }
        checkAlike(root, pattern, places);
        boolean named = pattern != null && hasGroup(pattern, LineFormat.NAME_GROUP);
        return new LineFormat(separator, columns, pattern, named, places, byName, counter(line, pattern, places));
    }

    /** Reads {@code [line.counter]}. */
    private static LineFormat.@Nullable Counter counter(
            TomlTableReader line, @Nullable Pattern pattern, List<LineFormat.Place> places) throws InputException {
        if (!line.has("counter")) {
            return null;
        }
        TomlTableReader table = line.table("counter");
        if (pattern == null && places.get(0).pattern() != null) {
            throw table.error("a counter goes with columns or a pattern under [line], not with patterns of readings");
        }
        int bits = (int) table.integer("bits", 32, 8, 62);
        String group = table.string("group").orElse("counter");
        int column = (int) table.integer("column", 0, 1, 64);
        if (pattern == null ? column == 0 : !hasGroup(pattern, group)) {
            throw table.error(
                    pattern == null
                            ? "'column' is missing: where the counter stands"
                            : "the pattern has no group (?<" + group + ">...) for the counter");
        }
        return new LineFormat.Counter(column, group, bits);
    }

    private static LineFormat.Place place(Entry entry, boolean comma, @Nullable Pattern linePattern)
            throws InputException {
        TomlTableReader table = entry.table();
        TextReading text = TextReading.read(table, entry.spec(), comma);
        int column = (int) table.integer("column", 1, 1, 64);
        boolean optional = table.bool("optional", false);
        String ownText = table.string("pattern").orElse("");
        Pattern own = ownText.isEmpty() ? null : ReadingTables.pattern(table, "pattern", ownText);
        Pattern used = own == null ? linePattern : own;
        String valueGroup = table.string("group").orElse("value");
        String unitGroup = table.string("unit-group").orElse(table.has("group") ? "" : "unit");
        if (used == null) {
            return new LineFormat.Place(entry.index(), text, column, optional, null, valueGroup, "");
        }
        if (!hasGroup(used, valueGroup)) {
            throw table.error("the pattern has no group (?<" + valueGroup + ">...) for the number");
        }
        if (table.has("unit-group") && !hasGroup(used, unitGroup)) {
            throw table.error("unit-group", "the pattern has no group (?<" + unitGroup + ">...)");
        }
        return new LineFormat.Place(
                entry.index(),
                text,
                column,
                optional,
                own,
                valueGroup,
                !unitGroup.isEmpty() && hasGroup(used, unitGroup) ? unitGroup : "");
    }

    private static boolean hasGroup(Pattern pattern, String name) {
        return pattern.pattern().contains("(?<" + name + ">");
    }

    private static void checkAlike(TomlTableReader root, @Nullable Pattern line, List<LineFormat.Place> places)
            throws InputException {
        long own = places.stream().filter(p -> p.pattern() != null).count();
        if (own > 0 && line != null) {
            throw root.error("a pattern under [line] and patterns under [[reading]] exclude each other");
        }
        if (own > 0 && own < places.size()) {
            throw root.error("either every [[reading]] has a pattern or none has");
        }
    }
}
