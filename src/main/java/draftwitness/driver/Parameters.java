package draftwitness.driver;

import draftwitness.input.InputException;
import draftwitness.input.TomlTableReader;
import draftwitness.input.TomlText;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.Set;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * The declared parameters of one description: their defaults, and the description's text with the settled values in
 * place. Immutable.
 *
 * <p>How it works: values are put into the TOML text before it is read for good, line by line, so that types, ranges
 * and messages (with their line numbers) are those of the TOML reader. A whole text {@code "$name"} becomes a value of
 * the parameter's own type, {@code ${name}} within a text becomes its characters.
 */
final class Parameters {
    static final String TABLE = "parameters";

    private static final Pattern NAME = Pattern.compile("[a-z][a-z0-9-]*");
    private static final Pattern WHOLE = Pattern.compile("([\"'])\\$([a-z][a-z0-9-]*)\\1");
    private static final Pattern WITHIN = Pattern.compile("\\$\\{([a-z][a-z0-9-]*)}");

    private final String file;
    private final String text;
    private final Map<String, Object> defaults;

    private Parameters(String file, String text, Map<String, Object> defaults) {
        this.file = file;
        this.text = text;
        this.defaults = defaults;
    }

    /**
     * Reads the defaults.
     *
     * @param file what to call the description in messages
     * @throws InputException on text that is not TOML, or a parameter whose name or value cannot be used
     */
    static Parameters read(String file, String text) throws InputException {
        TomlTableReader table = TomlTableReader.parse(file, text).table(TABLE);
        Map<String, Object> defaults = table.scalars();
        for (String name : defaults.keySet()) {
            if (!NAME.matcher(name).matches()) {
                throw table.error(name, "parameter names are lower-case words joined by hyphens");
            }
        }
        return new Parameters(file, text, defaults);
    }

    /** Names and defaults as written, in the order of the file. */
    Map<String, String> shown() {
        Map<String, String> out = new LinkedHashMap<>();
        defaults.forEach((k, v) -> out.put(k, v.toString()));
        return out;
    }

    /**
     * The description's text with the given values, or else the defaults, in place.
     *
     * @param spec what the person wrote, for messages
     * @throws InputException on an unknown key, a value of another type than the default, or a reference to nothing
     */
    String settle(String spec, Map<String, String> overrides) throws InputException {
        Map<String, Object> values = values(spec, overrides);
        Set<String> used = new HashSet<>();
        StringBuilder out = new StringBuilder(text.length() + 64);
        boolean inParameters = false;
        int number = 0;
        for (String line : text.split("\n", -1)) {
            number++;
            String bare = line.strip();
            if (bare.startsWith("[")) {
                inParameters = bare.startsWith("[" + TABLE + "]");
            }
            boolean plain = inParameters || bare.startsWith("#");
            out.append(number == 1 ? "" : "\n").append(plain ? line : fill(line, file + ":" + number, values, used));
        }
        for (String name : defaults.keySet()) {
            if (!used.contains(name) && !referred(name)) {
                throw new InputException(
                        file + ": parameter '" + name + "' is declared but nothing refers to $" + name);
            }
        }
        return out.toString();
    }

    /** The error for a parameter that a driver does not have. */
    static InputException unknown(String spec, String key, Set<String> known) {
        return new InputException("'" + spec + "': the driver has no parameter '" + key + "'; "
                + (known.isEmpty() ? "it has none" : "it has: " + String.join(" ", known)));
    }

    private boolean referred(String name) {
        return defaults.values().stream().anyMatch(v -> v.equals("$" + name));
    }

    /** Values by name; a default {@code "$other"} is the value of the other parameter, declared before it. */
    private Map<String, Object> values(String spec, Map<String, String> overrides) throws InputException {
        for (String key : overrides.keySet()) {
            if (!defaults.containsKey(key)) {
                throw unknown(spec, key, defaults.keySet());
            }
        }
        Map<String, Object> values = new LinkedHashMap<>();
        for (Map.Entry<String, Object> e : defaults.entrySet()) {
            Object byDefault = e.getValue();
            if (byDefault instanceof String s && s.startsWith("$")) {
                byDefault = values.get(s.substring(1));
                if (byDefault == null) {
                    throw new InputException(file + ": parameter '" + e.getKey() + "' refers to " + s
                            + ", which is not declared before it");
                }
            }
            String given = overrides.get(e.getKey());
            values.put(e.getKey(), given == null ? byDefault : typed(spec, e.getKey(), given, byDefault));
        }
        return values;
    }

    private static Object typed(String spec, String key, String given, Object like) throws InputException {
        try {
            if (like instanceof Long) {
                return Long.decode(given); // 0x20 is fine for addresses
            }
            if (like instanceof Double) {
                double d = Double.parseDouble(given);
                if (!Double.isNaN(d) && !Double.isInfinite(d)) {
                    return d;
                }
                throw new InputException("'" + spec + "': " + key + "=" + given + " is not a finite number");
            }
        } catch (NumberFormatException e) {
            throw new InputException(
                    "'" + spec + "': " + key + "=" + given + " is not a " + (like instanceof Long ? "whole " : "")
                            + "number (default " + like + ")",
                    e);
        }
        if (like instanceof Boolean) {
            if (given.equals("true") || given.equals("false")) {
                return Boolean.valueOf(given);
            }
            throw new InputException("'" + spec + "': " + key + "=" + given + " is neither true nor false");
        }
        return given;
    }

    private static String fill(String line, String where, Map<String, Object> values, Set<String> used)
            throws InputException {
        Matcher whole = WHOLE.matcher(line);
        StringBuilder first = new StringBuilder();
        while (whole.find()) {
            Object value = value(whole.group(2), where, values, used);
            whole.appendReplacement(first, Matcher.quoteReplacement(literal(value)));
        }
        whole.appendTail(first);
        Matcher within = WITHIN.matcher(first);
        StringBuilder out = new StringBuilder();
        while (within.find()) {
            String value = value(within.group(1), where, values, used).toString();
            if (value.chars().anyMatch(c -> c < ' ' || c == '"' || c == '\'' || c == '\\')) {
                throw new InputException(where + ": parameter '" + within.group(1) + "' is put into a longer text and"
                        + " may not hold quotes, backslashes or control characters");
            }
            within.appendReplacement(out, Matcher.quoteReplacement(value));
        }
        within.appendTail(out);
        return out.toString();
    }

    private static Object value(String name, String where, Map<String, Object> values, Set<String> used)
            throws InputException {
        Object value = values.get(name);
        if (value == null) {
            throw new InputException(where + ": $" + name + " is not declared under [" + TABLE + "]");
        }
        used.add(name);
        return value;
    }

    private static String literal(Object value) {
        return value instanceof String s ? TomlText.quoted(s) : value.toString();
    }
}
