package draftwitness.app.cli;

import draftwitness.app.ReportMaker;
import draftwitness.input.InputException;
import draftwitness.reading.Quantity;
import draftwitness.reading.Unit;
import draftwitness.recording.RecordingException;
import draftwitness.report.JobReport;
import draftwitness.report.Paper;
import draftwitness.setup.Setup;
import draftwitness.time.Ticker;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.util.concurrent.Callable;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

/** {@code report}: the job report of a recording, to hand over. */
@Command(
        name = "report",
        mixinStandardHelpOptions = true,
        description =
                "Writes the job report of a recording, to hand over: verdict, worst moments as charts, causes with why,"
                        + " what to check next. PDF for paper, or one HTML page that needs nothing else.")
final class ReportCommand implements Callable<Integer> {
    private final Console console;

    @Parameters(paramLabel = "FILE", description = "The recording (.dwrec).")
    @SuppressWarnings("NullAway.Init") // required: set before call()
    private Path file;

    @Option(names = "--out", required = true, paramLabel = "FILE", description = "The report to write: .pdf or .html.")
    @SuppressWarnings("NullAway.Init") // required: set before call()
    private Path out;

    @Option(names = "--paper", paramLabel = "a4|letter", description = "Paper; a4 by default.")
    private String paper = "a4";

    @Option(
            names = "--unit",
            paramLabel = "UNIT",
            description = "Unit of pressures, such as inH2O or Pa; the one that the draft was read in by default.")
    private @Nullable String unitText;

    @Option(
            names = "--setup",
            paramLabel = "FILE",
            description = "Setup file (TOML) to use instead of the one kept with the recording.")
    private @Nullable Path setupFile;

    @Option(names = "--replace", description = "Replaces the file if it exists.")
    private boolean replace;

    ReportCommand(Console console) {
        this.console = console;
    }

    @Override
    public Integer call() throws Exception {
        ReportMaker.Form form = ReportMaker.Form.of(out);
        Paper sheet = sheet();
        if (Files.exists(out) && !replace) {
            throw new InputException(out + " exists already; say --replace, or another name");
        }
        Setup setup = setupFile == null ? null : Setup.read(setupFile);
        try {
            JobReport report = new ReportMaker(new Version().getVersion()[0])
                    .gather(file, setup, unit(), Ticker.system().wallClock());
            ReportMaker.write(report, form, sheet, out);
        } catch (RecordingException e) {
            throw RecordingErrors.whenReading(e);
        } catch (NoSuchFileException e) {
            throw new InputException(e.getFile() + ": there is no such file or folder", e);
        } catch (IOException e) {
            throw new WorkFailedException(out + ": the report cannot be written (" + e.getMessage() + ")", e);
        }
        console.err().println("wrote " + out);
        return 0;
    }

    private Paper sheet() throws InputException {
        return switch (paper) {
            case "a4", "A4" -> Paper.A4;
            case "letter", "Letter" -> Paper.LETTER;
            default -> throw new InputException("--paper " + paper + " is neither a4 nor letter");
        };
    }

    private @Nullable Unit unit() throws InputException {
        if (unitText == null) {
            return null;
        }
        return Unit.ofSymbol(unitText)
                .filter(u -> u.quantity() == Quantity.PRESSURE)
                .orElseThrow(() -> new InputException(
                        "--unit " + unitText + " is not a unit of pressure; known: " + Unit.symbols()));
    }
}
