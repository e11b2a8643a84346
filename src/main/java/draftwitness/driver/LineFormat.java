package draftwitness.driver;

import draftwitness.reading.Decimal;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;

/**
 * Where the readings stand in a line of text. Immutable.
 *
 * <p>Three ways: columns; one pattern for the whole line; a pattern for each reading, of which at least one must match.
 * Patterns must match the whole line: what is left over would be damage.
 */
final class LineFormat implements LineJudge {

    /** Between columns. */
    enum Separator {
        /** The line is one column. */
        NONE(Pattern.compile("(?!)")),
        COMMA(Pattern.compile(",")),
        SEMICOLON(Pattern.compile(";")),
        TAB(Pattern.compile("\t")),
        /** Any run of blanks and tabs. */
        BLANKS(Pattern.compile("[ \t]+"));

        private final Pattern pattern;

        Separator(Pattern pattern) {
            this.pattern = pattern;
        }

        /** At least one cell, not stripped. */
        String[] cells(String line) {
            return this == NONE ? new String[] {line} : pattern.split(line.strip(), -1);
        }
    }

    /**
     * One reading's place.
     *
     * @param index of the reading
     * @param text how it is written
     * @param column from 1, with columns
     * @param optional whether its column or group may be absent or empty
     * @param pattern its own pattern, or null
     * @param valueGroup named group with the number
     * @param unitGroup named group with the unit, or empty if it may follow the number
     */
    record Place(
            int index,
            TextReading text,
            int column,
            boolean optional,
            @Nullable Pattern pattern,
            String valueGroup,
            String unitGroup) {}

    /**
     * The instrument's own counter in each line, a whole number.
     *
     * @param column from 1, with columns
     * @param group named group that holds it, with a pattern for the line
     * @param bits where it wraps around
     */
    record Counter(int column, String group, int bits) {
        /** Stages the counter; gives why the line is damaged, or null. */
        @Nullable
        Fault stage(@Nullable String text, Staged staged) {
            Optional<Decimal> number = text == null ? Optional.empty() : Decimal.parse(text.strip());
            if (number.isEmpty()
                    || number.get().decimals() > 0
                    || number.get().count() < 0
                    || number.get().count() >> bits != 0) {
                return Fault.NOT_A_READING;
            }
            staged.counter(number.get().count(), bits);
            return null;
        }
    }

    /** Group of a line pattern that names the reading. */
    static final String NAME_GROUP = "name";

    private final Separator separator;
    private final int columns;
    private final @Nullable Pattern pattern;
    private final boolean named;
    private final List<Place> places;
    private final Map<String, Integer> byName;
    private final @Nullable Counter counter;

    /**
     * @param columns exact number of columns, or 0 for any
     * @param pattern for the whole line, or null
     * @param namesReading whether the pattern's name group tells which reading a line carries
     * @param byName position in {@code places} by the reading's name
     * @param counter the instrument's own counter, or null
     */
    LineFormat(
            Separator separator,
            int columns,
            @Nullable Pattern pattern,
            boolean namesReading,
            List<Place> places,
            Map<String, Integer> byName,
            @Nullable Counter counter) {
        this.separator = separator;
        this.columns = columns;
        this.pattern = pattern;
        this.named = namesReading;
        this.places = List.copyOf(places);
        this.byName = Map.copyOf(byName);
        this.counter = counter;
    }

    /** Whether lines carry the instrument's own counter. */
    boolean isCounted() {
        return counter != null;
    }

    @Override
    public @Nullable Fault read(String line, Staged staged) {
        try {
            Fault fault;
            if (pattern != null) {
                fault = byPattern(pattern.matcher(new BoundedText(line.strip())), staged);
            } else if (places.get(0).pattern() != null) {
                fault = byPatterns(line.strip(), staged);
            } else {
                fault = byColumns(separator.cells(line), staged);
            }
            return fault == null && staged.isEmpty() ? Fault.NOT_A_READING : fault;
        } catch (BoundedText.TooManyLooks e) {
            return Fault.NOT_A_READING; // an expected outcome of outside data
        }
    }

    private @Nullable Fault byColumns(String[] cells, Staged staged) {
        if (columns > 0 && cells.length != columns) {
            return Fault.NOT_A_READING;
        }
        if (counter != null) {
            Fault fault = counter.stage(counter.column() > cells.length ? null : cells[counter.column() - 1], staged);
            if (fault != null) {
                return fault;
            }
        }
        for (Place place : places) {
            String cell = place.column() > cells.length ? "" : cells[place.column() - 1].strip();
            Fault fault = cell.isEmpty() ? absent(place) : place.text().stage(place.index(), cell, null, staged);
            if (fault != null) {
                return fault;
            }
        }
        return null;
    }

    private static @Nullable Fault absent(Place place) {
        return place.optional() ? null : Fault.NOT_A_READING;
    }

    private @Nullable Fault byPattern(Matcher matcher, Staged staged) {
        if (!matcher.matches()) {
            return Fault.NOT_A_READING;
        }
        if (counter != null) {
            Fault fault = counter.stage(matcher.group(counter.group()), staged);
            if (fault != null) {
                return fault;
            }
        }
        if (named) {
            Integer index = byName.get(String.valueOf(matcher.group(NAME_GROUP)));
            return index == null ? Fault.NOT_A_READING : group(places.get(index), matcher, staged);
        }
        for (Place place : places) {
            Fault fault = group(place, matcher, staged);
            if (fault != null) {
                return fault;
            }
        }
        return null;
    }

    private @Nullable Fault byPatterns(String line, Staged staged) {
        for (Place place : places) {
            Pattern own = place.pattern();
            Matcher matcher = own == null ? null : own.matcher(new BoundedText(line));
            if (matcher != null && matcher.matches()) {
                Fault fault = group(place, matcher, staged);
                if (fault != null) {
                    return fault;
                }
            }
        }
        return null;
    }

    private @Nullable Fault group(Place place, Matcher matcher, Staged staged) {
        String cell = matcher.group(place.valueGroup());
        if (cell == null || cell.isBlank()) {
            return absent(place);
        }
        String unit = place.unitGroup().isEmpty() ? null : matcher.group(place.unitGroup());
        return place.text().stage(place.index(), cell, unit == null ? null : unit.strip(), staged);
    }
}
