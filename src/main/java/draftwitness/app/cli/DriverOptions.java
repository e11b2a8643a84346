package draftwitness.app.cli;

import draftwitness.driver.DriverCatalog;
import draftwitness.input.InputException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import picocli.CommandLine.Option;

/** Where drivers come from. */
final class DriverOptions {
    @Option(
            names = "--drivers",
            paramLabel = "DIR",
            description = "A folder with further driver descriptions (repeatable).")
    private List<Path> folders = new ArrayList<>();

    DriverCatalog catalog() throws InputException {
        return DriverCatalog.with(folders);
    }
}
