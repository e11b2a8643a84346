package draftwitness.dashboard;

import draftwitness.input.InputException;
import draftwitness.input.TomlTableReader;
import draftwitness.input.TomlText;
import draftwitness.setup.Setup;
import java.util.Collections;
import java.util.EnumMap;
import java.util.LinkedHashMap;
import java.util.Map;
import org.jspecify.annotations.Nullable;

/**
 * A setup as it is being typed: texts that may still be wrong. Immutable.
 *
 * @param values what stands in each line; lines left empty are absent
 * @param sources source id to {@code DRIVER@LINK}, in the order of the file
 */
public record SetupDraft(Map<SetupField, String> values, Map<String, String> sources) {
    public SetupDraft {
        Map<SetupField, String> filled = new EnumMap<>(SetupField.class);
        values.forEach((field, text) -> {
            if (!text.isBlank()) {
                filled.put(field, text.strip());
            }
        });
        values = Collections.unmodifiableMap(filled);
        sources = Collections.unmodifiableMap(new LinkedHashMap<>(sources));
    }

    /** Nothing stated. */
    public static SetupDraft empty() {
        return new SetupDraft(Map.of(), Map.of());
    }

    /**
     * The draft of a setup file.
     *
     * @throws InputException if it is not a valid setup, naming line and key
     */
    public static SetupDraft of(String name, String toml) throws InputException {
        Setup setup = Setup.parse(name, toml);
        TomlTableReader top = TomlTableReader.parse(name, toml);
        Map<SetupField, String> values = new EnumMap<>(SetupField.class);
        for (SetupField field : SetupField.values()) {
            String text = field.table().isEmpty()
                    ? top.string(field.key()).orElse("")
                    : top.table(field.table()).textEntries().getOrDefault(field.key(), "");
            values.put(field, text);
        }
        return new SetupDraft(values, setup.sources());
    }

    /** What stands in a line; empty when nothing does. */
    public String text(SetupField field) {
        return values.getOrDefault(field, "");
    }

    /** With another text in a line. */
    public SetupDraft with(SetupField field, String text) {
        Map<SetupField, String> changed = new EnumMap<>(SetupField.class);
        changed.putAll(values);
        changed.put(field, text);
        return new SetupDraft(changed, sources);
    }

    /** The setup file's text. */
    public String toToml() {
        StringBuilder out = new StringBuilder();
        String table = "";
        for (SetupField field : SetupField.values()) {
            String text = text(field);
            if (text.isEmpty()) {
                continue;
            }
            if (!field.table().equals(table)) {
                table = field.table();
                out.append('[').append(table).append("]\n");
            }
            out.append(field.key()).append(" = ").append(field.kind().quoted() ? TomlText.quoted(text) : text);
            out.append('\n');
        }
        if (!sources.isEmpty()) {
            out.append("[sources]\n");
            sources.forEach((id, spec) -> out.append(TomlText.quoted(id))
                    .append(" = ")
                    .append(TomlText.quoted(spec))
                    .append('\n'));
        }
        return out.toString();
    }

    /** What is wrong with a line by itself, or null: a number without unit, a word in place of a number. */
    public @Nullable String problem(SetupField field) {
        if (text(field).isEmpty()) {
            return null;
        }
        SetupDraft alone = new SetupDraft(Map.of(field, text(field)), Map.of());
        return alone.problem();
    }

    /** What is wrong with the whole, in one line, or null. */
    public @Nullable String problem() {
        try {
            Setup.parse("setup", toToml());
            return null;
        } catch (InputException e) {
            return String.valueOf(e.getMessage());
        }
    }
}
