package draftwitness.driver;

import draftwitness.input.InputException;
import draftwitness.input.TomlTableReader;
import draftwitness.reading.Unit;
import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Set;
import java.util.regex.Pattern;
import java.util.regex.PatternSyntaxException;
import java.util.stream.Collectors;

/** The {@code [[reading]]} tables that all kinds share. Pure. */
final class ReadingTables {
    private static final Pattern NAME = Pattern.compile("[A-Za-z][A-Za-z0-9._-]*");

    private ReadingTables() {}

    /** Reads one thing out of each {@code [[reading]]}. */
    @FunctionalInterface
    interface EachReading {
        void read(TomlTableReader table, ReadingSpec spec) throws InputException;
    }

    /** Goes through the readings in order; there is at least one and no name comes twice. */
    static void forEach(TomlTableReader root, EachReading each) throws InputException {
        List<TomlTableReader> tables = root.tables("reading");
        if (tables.isEmpty()) {
            throw root.error("at least one [[reading]] is needed");
        }
        Set<String> names = new HashSet<>();
        for (TomlTableReader table : tables) {
            String name = table.requiredString("name");
            if (!NAME.matcher(name).matches()) {
                throw table.error("name", "'" + name + "' must be letters, digits, dots and hyphens");
            }
            if (!names.add(name)) {
                throw table.error("name", "'" + name + "' is used twice");
            }
            Unit unit = table.unit("unit").orElseThrow(() -> table.error("'unit' is missing"));
            each.read(table, new ReadingSpec(name, unit));
        }
    }

    /**
     * A regular expression.
     *
     * @throws InputException if it is not one
     */
    static Pattern pattern(TomlTableReader table, String key, String text) throws InputException {
        try {
            return Pattern.compile(text);
        } catch (PatternSyntaxException e) {
            throw table.error(key, "not a regular expression: " + e.getDescription() + " at " + e.getIndex());
        }
    }

    /** One of a few words, in lower case with hyphens; {@code byDefault} when absent. */
    static <E extends Enum<E>> E choice(TomlTableReader table, String key, E byDefault) throws InputException {
        String word = table.string(key).orElse(word(byDefault));
        List<E> known = List.of(byDefault.getDeclaringClass().getEnumConstants());
        for (E one : known) {
            if (word(one).equals(word)) {
                return one;
            }
        }
        throw table.error(
                key,
                "'" + word + "' is not one of: "
                        + known.stream().map(ReadingTables::word).collect(Collectors.joining(" ")));
    }

    private static String word(Enum<?> one) {
        return one.name().toLowerCase(Locale.ROOT).replace('_', '-');
    }
}
