package draftwitness.driver;

import draftwitness.input.InputException;
import draftwitness.input.Options;
import draftwitness.input.Spelling;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;

/**
 * All drivers within reach: the shipped ones, plug-ins, and those of extra folders. Immutable; any thread.
 *
 * <p>A description that cannot be used does not hide the others: it is listed with the reason, and only asking for it
 * fails.
 */
public final class DriverCatalog {

    /**
     * One line of the list.
     *
     * @param name as in {@code DRIVER@LINK}
     * @param kind its declared kind
     * @param title which instruments it is for
     * @param origin where it was found
     * @param shadows where the driver of the same name was found that this one replaces; empty if none
     * @param parameters names and defaults, in the order of the file
     * @param problem why it cannot be used; empty if it can
     */
    public record Entry(
            String name,
            String kind,
            String title,
            String origin,
            String shadows,
            Map<String, String> parameters,
            String problem) {}

    private record Found(Offer offer, String shadows) {}

    private final Map<String, Found> byName;

    private DriverCatalog(Map<String, Found> byName) {
        this.byName = byName;
    }

    /** Only the drivers that come with the program. */
    public static DriverCatalog shipped() {
        Map<String, Found> byName = new TreeMap<>();
        add(byName, ShippedDrivers.load());
        return new DriverCatalog(byName);
    }

    /**
     * The shipped drivers, plug-ins, and the drivers of some folders; of equal names the later folder's wins, and the
     * list says so.
     *
     * @throws InputException if a folder or a file in it cannot be read
     */
    public static DriverCatalog with(List<Path> folders) throws InputException {
        Map<String, Found> byName = new TreeMap<>(shipped().byName);
        add(byName, PluginOffer.load());
        for (Path folder : folders) {
            if (!Files.isDirectory(folder)) {
                throw new InputException("--drivers " + folder + ": no such folder");
            }
            try {
                add(byName, ShippedDrivers.fromFolder(folder, ""));
            } catch (IOException e) {
                throw new InputException("--drivers " + folder + ": cannot be read (" + e.getMessage() + ")", e);
            }
        }
        return new DriverCatalog(byName);
    }

    private static void add(Map<String, Found> byName, List<? extends Offer> offers) {
        for (Offer one : offers) {
            Found before = byName.get(one.name());
            byName.put(
                    one.name(),
                    new Found(one, before == null ? "" : before.offer().origin()));
        }
    }

    /**
     * The driver written as {@code NAME?key=value&key=value}.
     *
     * @throws InputException on an unknown name (the message lists the known ones), an unknown or ill-typed parameter,
     *     or a description that cannot be used
     */
    public Driver find(String spec) throws InputException {
        Options options = Options.parse(spec);
        Found found = byName.get(options.base());
        if (found == null) {
            throw new InputException(unknown(options.base()));
        }
        return found.offer().driver(spec, options.values());
    }

    private String unknown(String name) {
        String hint = Spelling.hint(name, byName.keySet());
        return "there is no driver '" + name + "'" + (hint.isEmpty() ? ";" : hint) + " known: "
                + String.join(" ", byName.keySet());
    }

    /** Every driver, as {@code NAME} and as {@code NAME?key=value} with each variant that it offers for guessing. */
    List<String> variants() {
        List<String> out = new ArrayList<>();
        for (Found found : byName.values()) {
            out.addAll(found.offer().variants());
        }
        return out;
    }

    /**
     * A driver straight from a file, whatever the catalogue holds.
     *
     * @param spec a path, with parameters after a question mark
     * @throws InputException if it cannot be read or used
     */
    public static Driver fromFile(String spec) throws InputException {
        Options options = Options.parse(spec);
        return Description.of(Path.of(options.base())).driver(spec, options.values());
    }

    /**
     * One driver's line of the list.
     *
     * @param spec its name; parameters after a question mark are allowed
     * @throws InputException on an unknown name
     */
    public Entry entry(String spec) throws InputException {
        String name = Options.parse(spec).base();
        Found found = byName.get(name);
        if (found == null) {
            throw new InputException(unknown(name));
        }
        return found.offer().entry(found.shadows());
    }

    /** All drivers by name, with what they are and where they come from. */
    public List<Entry> list() {
        List<Entry> out = new ArrayList<>();
        byName.values().forEach(f -> out.add(f.offer().entry(f.shadows())));
        return List.copyOf(out);
    }
}
