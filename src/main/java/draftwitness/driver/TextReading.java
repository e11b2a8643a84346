package draftwitness.driver;

import draftwitness.input.InputException;
import draftwitness.input.TomlTableReader;
import draftwitness.reading.Decimal;
import draftwitness.reading.Quantity;
import draftwitness.reading.Unit;
import java.util.Collections;
import java.util.EnumSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeMap;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;

/**
 * How one reading is written in text: its unit, decimal mark and words. Immutable.
 *
 * @param spec name and declared unit
 * @param mark decimal mark
 * @param words texts that stand for a value, upper case ({@code ON} for 1)
 * @param noValue texts by which the instrument says that it has no value, upper case
 * @param overRange texts by which it says that it is beyond its range, upper case
 * @param units the only units taken; empty for any of the quantity
 */
record TextReading(
        ReadingSpec spec,
        char mark,
        Map<String, Decimal> words,
        Set<String> noValue,
        Set<String> overRange,
        Set<Unit> units) {
    private static final Set<String> NO_VALUE = Set.of("NAN", "ERR", "ERROR", "-", "--", "---", "----", "-----");
    private static final Set<String> OVER_RANGE =
            Set.of("OL", "-OL", "+OL", "OVER", "UNDER", "OVERRANGE", "UNDERRANGE", "INF", "-INF", "+INF");

    /** Reads the keys {@code no-value over-range units} and the table {@code words} of a {@code [[reading]]}. */
    static TextReading read(TomlTableReader table, ReadingSpec spec, boolean decimalComma) throws InputException {
        Map<String, Decimal> words = new TreeMap<>();
        for (Map.Entry<String, Object> e : table.table("words").scalars().entrySet()) {
            Decimal value = Decimal.parse(e.getValue().toString())
                    .orElseThrow(() -> table.error("words", "'" + e.getKey() + "' must stand for a number"));
            words.put(e.getKey().toUpperCase(Locale.ROOT), value);
        }
        return new TextReading(
                spec,
                decimalComma ? ',' : '.',
                Map.copyOf(words),
                joined(NO_VALUE, table.strings("no-value")),
                joined(OVER_RANGE, table.strings("over-range")),
                units(table));
    }

    private static Set<Unit> units(TomlTableReader table) throws InputException {
        Set<Unit> units = EnumSet.noneOf(Unit.class);
        for (String symbol : table.strings("units")) {
            units.add(Unit.ofSymbol(symbol)
                    .orElseThrow(
                            () -> table.error("units", "'" + symbol + "' is not a unit; known: " + Unit.symbols())));
        }
        return Collections.unmodifiableSet(units);
    }

    private static Set<String> joined(Set<String> usual, List<String> declared) {
        return Stream.concat(usual.stream(), declared.stream().map(s -> s.toUpperCase(Locale.ROOT)))
                .collect(Collectors.toUnmodifiableSet());
    }

    /**
     * Reads one cell and stages what it says.
     *
     * @param unitText the unit where it stands apart from the number, or null if it may follow it in the cell
     * @return why the whole message is damaged, or null
     */
    @Nullable
    Fault stage(int index, String cell, @Nullable String unitText, Staged staged) {
        String word = cell.strip().toUpperCase(Locale.ROOT);
        Decimal known = words.get(word);
        if (known != null) {
            staged.add(index, known, spec.unit());
            return null;
        }
        if (noValue.contains(word) || overRange.contains(word)) {
            staged.missing(noValue.contains(word) ? Fault.NO_VALUE : Fault.OVER_RANGE);
            return null;
        }
        NumberText number = NumberText.parse(cell, mark);
        String unit = unitText == null ? number.unit() : number.unit() + unitText;
        Decimal value = number.value();
        if (value == null) {
            return special(number, staged);
        }
        return stage(index, value, unit, staged);
    }

    private static @Nullable Fault special(NumberText number, Staged staged) {
        Fault fault = number.fault();
        if (fault == Fault.NO_VALUE || fault == Fault.OVER_RANGE) {
            staged.missing(fault);
            return null;
        }
        return Fault.NOT_A_READING;
    }

    private @Nullable Fault stage(int index, Decimal value, String unitText, Staged staged) {
        Optional<WrittenUnit> written =
                unitText.isEmpty() ? Optional.of(new WrittenUnit(spec.unit(), 0)) : WrittenUnit.of(unitText);
        if (written.isEmpty()
                || written.get().quantity() != spec.unit().quantity()
                || (!units.isEmpty() && !units.contains(written.get().unit()))) {
            return Fault.UNKNOWN_UNIT;
        }
        Optional<Decimal> exact = written.get().value(value);
        if (exact.isEmpty() || (spec.unit().quantity() == Quantity.CONTACT && !isContact(exact.get()))) {
            return Fault.NOT_A_READING;
        }
        staged.add(index, exact.get(), written.get().unit());
        return null;
    }

    /** A contact is open or closed, 0 or 1; nothing else is a reading of it. */
    static boolean isContact(Decimal value) {
        return value.decimals() == 0 && (value.count() == 0 || value.count() == 1);
    }
}
