package draftwitness.app.cli;

import draftwitness.driver.Driver;
import draftwitness.driver.DriverCatalog;
import draftwitness.input.InputException;
import java.util.concurrent.Callable;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Parameters;

/** {@code drivers}: which instruments can be read. */
@Command(
        name = "drivers",
        subcommands = DriversCheckCommand.class,
        mixinStandardHelpOptions = true,
        description = "Lists the drivers: which instruments can be read, and the parameters each takes.")
final class DriversCommand implements Callable<Integer> {
    private final Console console;

    @Parameters(arity = "0..1", paramLabel = "NAME", description = "Shows this driver with its description.")
    private @Nullable String name;

    @Mixin
    private DriverOptions options = new DriverOptions();

    DriversCommand(Console console) {
        this.console = console;
    }

    @Override
    public Integer call() throws InputException {
        DriverCatalog catalog = options.catalog();
        if (name != null) {
            show(catalog, name);
            return 0;
        }
        for (DriverCatalog.Entry e : catalog.list()) {
            list(e);
        }
        return 0;
    }

    private void list(DriverCatalog.Entry e) {
        console.out().println(e.name());
        console.out().println("    " + (e.problem().isEmpty() ? e.title() : "cannot be used: " + e.problem()));
        if (!e.parameters().isEmpty()) {
            console.out()
                    .println("    parameters: "
                            + e.parameters().entrySet().stream()
                                    .map(p -> p.getKey() + "=" + p.getValue())
                                    .collect(Collectors.joining(" ")));
        }
        console.out().println("    from " + e.origin() + (e.shadows().isEmpty() ? "" : ", instead of " + e.shadows()));
    }

    /** One driver in full: what it delivers, how to write it, and its description as it stands in its file. */
    private void show(DriverCatalog catalog, String spec) throws InputException {
        DriverCatalog.Entry entry = catalog.entry(spec);
        list(entry);
        if (!entry.problem().isEmpty()) {
            return;
        }
        Driver driver = catalog.find(spec);
        console.out()
                .println("    readings: "
                        + driver.readings().stream()
                                .map(r -> r.name() + " [" + r.unit().symbol() + "]")
                                .collect(Collectors.joining(", ")));
        if (!driver.description().isEmpty()) {
            console.out().println();
            console.out().print(driver.description());
        }
    }
}
