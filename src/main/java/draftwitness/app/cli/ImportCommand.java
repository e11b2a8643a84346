package draftwitness.app.cli;

import draftwitness.app.LiveRun;
import draftwitness.input.InputException;
import draftwitness.input.WallClock;
import draftwitness.recording.ImportOptions;
import draftwitness.recording.RecordingException;
import draftwitness.recording.TableImport;
import draftwitness.setup.Setup;
import java.nio.file.Path;
import java.time.Instant;
import java.time.ZoneId;
import java.util.concurrent.Callable;
import java.util.concurrent.CancellationException;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

/** {@code import}: a table of readings becomes a recording. */
@Command(
        name = "import",
        mixinStandardHelpOptions = true,
        description =
                "Makes a recording out of a table (CSV or Parquet): a column time_s or time, then one column a tap, such as"
                        + " \"draft.switch [Pa]\".")
final class ImportCommand implements Callable<Integer> {
    private final Console console;

    @Parameters(paramLabel = "TABLE", description = "The table (CSV or Parquet).")
    @SuppressWarnings("NullAway.Init") // required: set before call()
    private Path table;

    @Option(
            names = "--out",
            required = true,
            paramLabel = "FILE",
            description = "The recording to make (.dwrec); must not exist.")
    @SuppressWarnings("NullAway.Init") // required: set before call()
    private Path out;

    @Option(
            names = "--setup",
            paramLabel = "FILE",
            description = "Setup of the appliance (TOML), kept with the recording.")
    private @Nullable Path setupFile;

    @Option(
            names = "--start",
            paramLabel = "TIME",
            description = "When second 0 was, such as \"2026-01-17 22:10\" (this computer's zone, unless one is written"
                    + " after it: Z, +01:00, Europe/Berlin); for tables without instants.")
    private @Nullable String start;

    ImportCommand(Console console) {
        this.console = console;
    }

    @Override
    public Integer call() throws Exception {
        Setup setup = setupFile == null ? Setup.defaults() : Setup.read(setupFile);
        ImportOptions options = new ImportOptions(instant(), setup.title(), setup.text());
        try {
            TableImport.run(table, out, options, new TerminalProgress("importing", console));
        } catch (CancellationException e) {
            throw new WorkFailedException("stopped before it was complete; nothing is left of it", e);
        } catch (RecordingException e) {
            throw RecordingErrors.whenWriting(e);
        }
        console.err().println("imported " + table + " into " + out + " (" + LiveRun.size(out) + ")");
        return 0;
    }

    private @Nullable Instant instant() throws InputException {
        if (start == null) {
            return null;
        }
        try {
            WallClock given = WallClock.parse(start, ZoneId.systemDefault());
            if (!given.zoneGiven()) {
                console.err().println("start taken as " + given.text());
            }
            return given.instant();
        } catch (InputException e) {
            throw new InputException("--start " + e.getMessage(), e);
        }
    }
}
