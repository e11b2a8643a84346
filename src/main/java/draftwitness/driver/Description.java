package draftwitness.driver;

import draftwitness.input.InputException;
import draftwitness.input.TomlTableReader;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/**
 * One TOML description as found: its name and text, not yet judged. Immutable.
 *
 * @param name the file's name without {@code .toml}
 * @param origin where it was found, for lists and messages
 * @param text the file's text
 */
record Description(String name, String origin, String text) implements Offer {
    static final String ENDING = ".toml";

    /** Key with other parameter values that are worth trying on unknown bytes. */
    private static final String GUESS = "guess";

    private static final String SAMPLES = "samples";

    /** Reads one file. */
    static Description of(Path file) throws InputException {
        Path last = file.getFileName();
        String fileName = last == null ? file.toString() : last.toString();
        String name = fileName.endsWith(ENDING) ? fileName.substring(0, fileName.length() - ENDING.length()) : fileName;
        return new Description(name, file.toString(), TomlTableReader.readText(file));
    }

    @Override
    public Driver driver(String spec, Map<String, String> overrides) throws InputException {
        String settled = Parameters.read(origin, text).settle(spec, overrides);
        TomlTableReader root = TomlTableReader.parse(origin, settled);
        root.table(Parameters.TABLE).scalars();
        String title = root.requiredString("title");
        root.strings(GUESS);
        Plan plan = Kind.of(root).read(root);
        List<ContactDecoder.Contact> contacts = ContactDecoder.read(root, plan.readings());
        if (plan.readings().isEmpty() && contacts.isEmpty()) {
            throw root.error("at least one [[contact]] is needed");
        }
        Optional<SampleRate> rate = sampleRate(root, plan.counted());
        root.finish();
        return new DescribedDriver(name, title, text, plan, contacts, rate);
    }

    /** Reads the table {@code [samples]}. */
    private static Optional<SampleRate> sampleRate(TomlTableReader root, boolean counted) throws InputException {
        if (!root.has(SAMPLES)) {
            return Optional.empty();
        }
        TomlTableReader table = root.table(SAMPLES);
        double hertz = table.number("rate-hz", 0, 0, SampleRate.MAX_HERTZ);
        SampleRate.By by = ReadingTables.choice(table, "by", SampleRate.By.COUNTER);
        if (by == SampleRate.By.COUNTER && hertz > 0 && !counted) {
            throw table.error("by", "\"counter\" needs [frame.counter] or [line.counter], which say where it stands");
        }
        return hertz > 0 ? Optional.of(new SampleRate(hertz, by)) : Optional.empty();
    }

    @Override
    public List<String> variants() {
        try {
            TomlTableReader root = TomlTableReader.parse(origin, text);
            List<String> out = new ArrayList<>(List.of(name));
            root.strings(GUESS).forEach(g -> out.add(name + "?" + g));
            return out;
        } catch (InputException e) {
            return List.of(); // listed with the reason by entry()
        }
    }

    @Override
    public DriverCatalog.Entry entry(String shadows) {
        try {
            Driver driver = driver(name, Map.of());
            String kind = TomlTableReader.parse(origin, text).requiredString("kind");
            Map<String, String> parameters = Parameters.read(origin, text).shown();
            return new DriverCatalog.Entry(name, kind, driver.title(), origin, shadows, parameters, "");
        } catch (InputException e) {
            String problem = String.valueOf(e.getMessage());
            return new DriverCatalog.Entry(name, "?", "cannot be used", origin, shadows, Map.of(), problem);
        }
    }
}
