package draftwitness.app.cli;

import draftwitness.driver.DriverCatalog;
import draftwitness.input.InputException;
import java.util.concurrent.Callable;
import java.util.stream.Collectors;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;

/** {@code drivers}: which instruments can be read. */
@Command(
        name = "drivers",
        subcommands = DriversCheckCommand.class,
        mixinStandardHelpOptions = true,
        description = "Lists the drivers: which instruments can be read, and the parameters each takes.")
final class DriversCommand implements Callable<Integer> {
    private final Console console;

    @Mixin
    private DriverOptions options = new DriverOptions();

    DriversCommand(Console console) {
        this.console = console;
    }

    @Override
    public Integer call() throws InputException {
        for (DriverCatalog.Entry e : options.catalog().list()) {
            console.out().println(e.name());
            console.out().println("    " + (e.problem().isEmpty() ? e.title() : "cannot be used: " + e.problem()));
            if (!e.parameters().isEmpty()) {
                console.out()
                        .println("    parameters: "
                                + e.parameters().entrySet().stream()
                                        .map(p -> p.getKey() + "=" + p.getValue())
                                        .collect(Collectors.joining(" ")));
            }
            console.out()
                    .println("    from " + e.origin() + (e.shadows().isEmpty() ? "" : ", instead of " + e.shadows()));
        }
        return 0;
    }
}
