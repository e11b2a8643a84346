package draftwitness.driver;

import draftwitness.input.InputException;
import draftwitness.input.TomlTableReader;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;

/**
 * One TOML description as found: its name and text, not yet judged. Immutable.
 *
 * @param name the file's name without {@code .toml}
 * @param origin where it was found, for lists and messages
 * @param text the file's text
 */
record Description(String name, String origin, String text) {
    static final String ENDING = ".toml";

    /** Reads one file. */
    static Description of(Path file) throws InputException {
        Path last = file.getFileName();
        String fileName = last == null ? file.toString() : last.toString();
        String name = fileName.endsWith(ENDING) ? fileName.substring(0, fileName.length() - ENDING.length()) : fileName;
        return new Description(name, file.toString(), TomlTableReader.readText(file));
    }

    /**
     * The driver with these parameter values.
     *
     * @param spec what the person wrote, for messages
     * @throws InputException if the description or a value cannot be used
     */
    Driver driver(String spec, Map<String, String> overrides) throws InputException {
        String settled = Parameters.read(origin, text).settle(spec, overrides);
        TomlTableReader root = TomlTableReader.parse(origin, settled);
        root.table(Parameters.TABLE).scalars();
        String title = root.requiredString("title");
        Plan plan = Kind.of(root).read(root);
        List<ContactDecoder.Contact> contacts = ContactDecoder.read(root, plan.readings());
        if (plan.readings().isEmpty() && contacts.isEmpty()) {
            throw root.error("at least one [[contact]] is needed");
        }
        root.finish();
        return new DescribedDriver(name, title, text, plan, contacts);
    }

    /** What a list shows of it; a description that cannot be used is listed with the reason. */
    DriverCatalog.Entry entry(@Nullable String shadowed) {
        try {
            Driver driver = driver(name, Map.of());
            TomlTableReader root = TomlTableReader.parse(origin, text);
            return new DriverCatalog.Entry(
                    name,
                    root.requiredString("kind"),
                    driver.title(),
                    origin,
                    shadowed == null ? "" : shadowed,
                    Parameters.read(origin, text).shown(),
                    "");
        } catch (InputException e) {
            return new DriverCatalog.Entry(
                    name,
                    "?",
                    "cannot be used",
                    origin,
                    shadowed == null ? "" : shadowed,
                    Map.of(),
                    String.valueOf(e.getMessage()));
        }
    }
}
