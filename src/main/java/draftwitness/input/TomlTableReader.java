package draftwitness.input;

import draftwitness.reading.Quantity;
import draftwitness.reading.Unit;
import java.io.IOException;
import java.nio.charset.CharacterCodingException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import org.tomlj.Toml;
import org.tomlj.TomlArray;
import org.tomlj.TomlParseError;
import org.tomlj.TomlParseResult;
import org.tomlj.TomlPosition;
import org.tomlj.TomlTable;

/**
 * One table of a TOML file, read strictly: each key is asked for by name and type, and {@link #finish()} refuses keys
 * that nobody asked for. Every message names file, line and key.
 *
 * <p>Not thread-safe; one owner.
 */
public final class TomlTableReader {
    /** Largest file taken; descriptions and setups are a few kilobytes. */
    private static final long MAX_BYTES = 1 << 20;

    private final String file;
    private final String path;
    private final TomlTable table;
    private final int line;
    private final Set<String> asked = new HashSet<>();
    private final List<TomlTableReader> children = new ArrayList<>();

    private TomlTableReader(String file, String path, TomlTable table, int line) {
        this.file = file;
        this.path = path;
        this.table = table;
        this.line = line;
    }

    /**
     * Reads a whole file as text.
     *
     * @throws InputException if it is missing, unreadable, larger than a megabyte or not UTF-8
     */
    public static String readText(Path file) throws InputException {
        try {
            if (Files.size(file) > MAX_BYTES) {
                throw new InputException(file + ": larger than 1 MB, surely not a TOML description");
            }
            return Files.readString(file, StandardCharsets.UTF_8);
        } catch (NoSuchFileException e) {
            throw new InputException(file + ": no such file", e);
        } catch (CharacterCodingException e) {
            throw new InputException(file + ": not UTF-8 text", e);
        } catch (IOException e) {
            throw new InputException(file + ": cannot be read (" + e.getMessage() + ")", e);
        }
    }

    /**
     * Parses TOML text.
     *
     * @param file what to call it in messages
     * @throws InputException at the first syntax error, with its line
     */
    public static TomlTableReader parse(String file, String text) throws InputException {
        TomlParseResult result = Toml.parse(text);
        if (result.hasErrors()) {
            TomlParseError first = result.errors().get(0);
            String message =
                    String.valueOf(first.getMessage()).lines().findFirst().orElse("not TOML");
            throw new InputException(file + ":" + first.position().line() + ": " + message);
        }
        return new TomlTableReader(file, "", result, 1);
    }

    /** An error about a key of this table, naming file and line. */
    public InputException error(String key, String problem) {
        return new InputException(file + ":" + lineOf(key) + ": " + name(key) + ": " + problem);
    }

    /** An error about this table as a whole. */
    public InputException error(String problem) {
        return new InputException(file + ":" + line + ": " + (path.isEmpty() ? "" : "[" + path + "] ") + problem);
    }

    private int lineOf(String key) {
        TomlPosition position = table.inputPositionOf(List.of(key));
        return position == null ? line : position.line();
    }

    private String name(String key) {
        return path.isEmpty() ? key : path + "." + key;
    }

    private @Nullable Object get(String key) {
        asked.add(key);
        return table.get(List.of(key));
    }

    public boolean has(String key) {
        return table.contains(List.of(key));
    }

    /** Keys in the order of the file. */
    public List<String> keys() {
        List<String> keys = new ArrayList<>(table.keySet());
        keys.sort((a, b) -> {
            TomlPosition pa = table.inputPositionOf(List.of(a));
            TomlPosition pb = table.inputPositionOf(List.of(b));
            int la = pa == null ? 0 : pa.line();
            int lb = pb == null ? 0 : pb.line();
            return la != lb
                    ? Integer.compare(la, lb)
                    : Integer.compare(pa == null ? 0 : pa.column(), pb == null ? 0 : pb.column());
        });
        return keys;
    }

    public Optional<String> string(String key) throws InputException {
        Object value = get(key);
        if (value == null) {
            return Optional.empty();
        }
        if (value instanceof String s) {
            return Optional.of(s);
        }
        throw error(key, "must be text in quotes");
    }

    public String requiredString(String key) throws InputException {
        return string(key).orElseThrow(() -> error("'" + key + "' is missing"));
    }

    /** A whole number within bounds (both inclusive), or the default when absent. */
    public long integer(String key, long byDefault, long min, long max) throws InputException {
        Object value = get(key);
        if (value == null) {
            return byDefault;
        }
        if (!(value instanceof Long n) || n < min || n > max) {
            throw error(key, "must be a whole number from " + min + " to " + max);
        }
        return n;
    }

    /** A finite number within bounds (both inclusive), or the default when absent. */
    public double number(String key, double byDefault, double min, double max) throws InputException {
        Object value = get(key);
        if (value == null) {
            return byDefault;
        }
        double n = value instanceof Long l ? l.doubleValue() : value instanceof Double d ? d : Double.NaN;
        if (!(n >= min && n <= max) || Double.isInfinite(n)) {
            throw error(key, "must be a number from " + min + " to " + max);
        }
        return n;
    }

    public boolean bool(String key, boolean byDefault) throws InputException {
        Object value = get(key);
        if (value == null) {
            return byDefault;
        }
        if (value instanceof Boolean b) {
            return b;
        }
        throw error(key, "must be true or false");
    }

    /** A list of texts; empty when absent. */
    public List<String> strings(String key) throws InputException {
        Object value = get(key);
        if (value == null) {
            return List.of();
        }
        if (!(value instanceof TomlArray array)) {
            throw error(key, "must be a list of texts");
        }
        List<String> out = new ArrayList<>();
        for (int i = 0; i < array.size(); i++) {
            if (!(array.get(i) instanceof String s)) {
                throw error(key, "must be a list of texts");
            }
            out.add(s);
        }
        return out;
    }

    /** A list of numbers; empty when absent. */
    public List<Double> numbers(String key) throws InputException {
        Object value = get(key);
        if (value == null) {
            return List.of();
        }
        if (!(value instanceof TomlArray array)) {
            throw error(key, "must be a list of numbers");
        }
        List<Double> out = new ArrayList<>();
        for (int i = 0; i < array.size(); i++) {
            Object item = array.get(i);
            if (item instanceof Long l) {
                out.add(l.doubleValue());
            } else if (item instanceof Double d && !d.isNaN() && !d.isInfinite()) {
                out.add(d);
            } else {
                throw error(key, "must be a list of numbers");
            }
        }
        return out;
    }

    /** A value with a unit such as {@code "0.95 inH2O"}, in the base unit (pascal); empty when absent. */
    public Optional<Double> pressure(String key) throws InputException {
        Optional<String> text = string(key);
        if (text.isEmpty()) {
            return Optional.empty();
        }
        try {
            return Optional.of(Quantities.parse(text.get(), Quantity.PRESSURE));
        } catch (InputException e) {
            throw error(key, String.valueOf(e.getMessage()));
        }
    }

    /** A unit by its symbol; empty when absent. */
    public Optional<Unit> unit(String key) throws InputException {
        Optional<String> text = string(key);
        if (text.isEmpty()) {
            return Optional.empty();
        }
        return Optional.of(Unit.ofSymbol(text.get())
                .orElseThrow(() -> error(key, "'" + text.get() + "' is not a unit; known: " + Unit.symbols())));
    }

    /** A table within this one; an empty one when absent. */
    public TomlTableReader table(String key) throws InputException {
        Object value = get(key);
        TomlTable inner;
        if (value == null) {
            inner = Toml.parse("");
        } else if (value instanceof TomlTable t) {
            inner = t;
        } else {
            throw error(key, "must be a table");
        }
        TomlTableReader child = new TomlTableReader(file, name(key), inner, value == null ? line : lineOf(key));
        children.add(child);
        return child;
    }

    /** Tables of a list ({@code [[key]]}); empty when absent. */
    public List<TomlTableReader> tables(String key) throws InputException {
        Object value = get(key);
        if (value == null) {
            return List.of();
        }
        if (!(value instanceof TomlArray array)) {
            throw error(key, "must be written as [[" + key + "]]");
        }
        List<TomlTableReader> out = new ArrayList<>();
        for (int i = 0; i < array.size(); i++) {
            if (!(array.get(i) instanceof TomlTable t)) {
                throw error(key, "must be written as [[" + key + "]]");
            }
            TomlTableReader child = new TomlTableReader(
                    file, name(key), t, array.inputPositionOf(i).line());
            children.add(child);
            out.add(child);
        }
        return out;
    }

    /** All entries as text, numbers and booleans written out, in the order of the file; for free-form tables. */
    public Map<String, String> textEntries() throws InputException {
        Map<String, String> out = new LinkedHashMap<>();
        for (String key : keys()) {
            Object value = get(key);
            if (value instanceof String
                    || value instanceof Long
                    || value instanceof Double
                    || value instanceof Boolean) {
                out.put(key, value.toString());
            } else {
                throw error(key, "must be text, a number or true/false");
            }
        }
        return out;
    }

    /** All entries as {@code String}, {@code Long}, {@code Double} or {@code Boolean}, in the order of the file. */
    public Map<String, Object> scalars() throws InputException {
        Map<String, Object> out = new LinkedHashMap<>();
        for (String key : keys()) {
            Object value = get(key);
            if (value instanceof String
                    || value instanceof Long
                    || value instanceof Double
                    || value instanceof Boolean) {
                out.put(key, value);
            } else {
                throw error(key, "must be text, a number or true/false");
            }
        }
        return out;
    }

    /**
     * Refuses keys that were never asked for, here and in the tables read from here.
     *
     * @throws InputException naming the first such key
     */
    public void finish() throws InputException {
        for (String key : keys()) {
            if (!asked.contains(key)) {
                throw error(
                        key,
                        "unknown key"
                                + (asked.isEmpty()
                                        ? ""
                                        : "; known here: "
                                                + String.join(
                                                        " ",
                                                        asked.stream().sorted().toList())));
            }
        }
        for (TomlTableReader child : children) {
            child.finish();
        }
    }
}
