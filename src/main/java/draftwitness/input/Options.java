package draftwitness.input;

import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.jspecify.annotations.Nullable;

/**
 * Text with {@code ?key=value&key=value} after it, as in links and driver names. Immutable.
 *
 * @param base what stands before the question mark
 * @param values keys in the order given
 */
public record Options(String base, Map<String, String> values) {
    public Options {
        values = Collections.unmodifiableMap(new LinkedHashMap<>(values));
    }

    /**
     * Splits the text at its first question mark.
     *
     * @throws InputException on a part without {@code =}, an empty key or a repeated key
     */
    public static Options parse(String text) throws InputException {
        int mark = text.indexOf('?');
        Map<String, String> values = new LinkedHashMap<>();
        if (mark >= 0 && mark + 1 < text.length()) {
            for (String part : text.substring(mark + 1).split("&", -1)) {
                int equals = part.indexOf('=');
                if (equals <= 0) {
                    throw new InputException("'" + text + "': '" + part + "' is not key=value");
                }
                if (values.put(part.substring(0, equals), part.substring(equals + 1)) != null) {
                    throw new InputException("'" + text + "': " + part.substring(0, equals) + " is given twice");
                }
            }
        }
        return new Options(mark < 0 ? text : text.substring(0, mark), values);
    }

    /**
     * Refuses keys outside the known ones.
     *
     * @throws InputException naming the first unknown key
     */
    public void allowOnly(Set<String> known) throws InputException {
        for (String key : values.keySet()) {
            if (!known.contains(key)) {
                throw new InputException("'" + this + "': unknown option " + key
                        + (known.isEmpty()
                                ? "; there are none"
                                : "; known: "
                                        + String.join(
                                                " ", known.stream().sorted().toList())));
            }
        }
    }

    public Optional<String> text(String key) {
        return Optional.ofNullable(values.get(key));
    }

    /** A whole number within bounds (both inclusive), or the default when absent. */
    public int integer(String key, int byDefault, int min, int max) throws InputException {
        String text = values.get(key);
        if (text == null) {
            return byDefault;
        }
        try {
            int n = Integer.parseInt(text);
            if (n >= min && n <= max) {
                return n;
            }
        } catch (NumberFormatException e) {
            throw outside(key, text, min + " to " + max, e);
        }
        throw outside(key, text, min + " to " + max, null);
    }

    /** A number above {@code min} and at most {@code max}, or the default when absent. */
    public double number(String key, double byDefault, double min, double max) throws InputException {
        String text = values.get(key);
        if (text == null) {
            return byDefault;
        }
        try {
            double n = Double.parseDouble(text);
            if (n > min && n <= max) {
                return n;
            }
        } catch (NumberFormatException e) {
            throw outside(key, text, "above " + min + " to " + max, e);
        }
        throw outside(key, text, "above " + min + " to " + max, null);
    }

    private InputException outside(String key, String text, String range, @Nullable Throwable cause) {
        String message = "'" + this + "': " + key + "=" + text + " is not a number from " + range;
        return cause == null ? new InputException(message) : new InputException(message, cause);
    }

    @Override
    public String toString() {
        if (values.isEmpty()) {
            return base;
        }
        StringBuilder out = new StringBuilder(base).append('?');
        values.forEach((k, v) -> out.append(out.charAt(out.length() - 1) == '?' ? "" : "&")
                .append(k)
                .append('=')
                .append(v));
        return out.toString();
    }
}
