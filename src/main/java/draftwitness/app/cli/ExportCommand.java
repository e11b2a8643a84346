package draftwitness.app.cli;

import draftwitness.app.LiveRun;
import draftwitness.app.ZeroWords;
import draftwitness.input.Durations;
import draftwitness.input.InputException;
import draftwitness.recording.ExportOptions;
import draftwitness.recording.RecordingException;
import draftwitness.recording.RecordingFile;
import draftwitness.recording.TableExport;
import draftwitness.recording.TableFormat;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.concurrent.Callable;
import java.util.concurrent.CancellationException;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

/** {@code export}: a recording's readings as a table. */
@Command(
        name = "export",
        mixinStandardHelpOptions = true,
        description = "Writes a recording's readings as a table (CSV or Parquet), each as finely as it was read.")
final class ExportCommand implements Callable<Integer> {
    private final Console console;

    @Parameters(paramLabel = "FILE", description = "The recording (.dwrec).")
    @SuppressWarnings("NullAway.Init") // required: set before call()
    private Path file;

    @Option(
            names = "--out",
            required = true,
            paramLabel = "F.csv|F.parquet",
            description = "The table to write; - for CSV on standard output.")
    @SuppressWarnings("NullAway.Init") // required: set before call()
    private String out;

    @Option(
            names = "--from",
            paramLabel = "TIME",
            description = "From this time after the start, such as 8m, 7:40 or 460 (seconds).")
    private @Nullable String from;

    @Option(names = "--to", paramLabel = "TIME", description = "Up to this time after the start (exclusive).")
    private @Nullable String to;

    @Option(names = "--replace", description = "Replaces the table if it is there already.")
    private boolean replace;

    @Option(names = "--instants", description = "A column of ISO 8601 instants instead of seconds.")
    private boolean instants;

    @Option(
            names = "--raw",
            description =
                    "Readings as the instruments wrote them, without the zeros taken off that were kept with them.")
    private boolean raw;

    ExportCommand(Console console) {
        this.console = console;
    }

    @Override
    public Integer call() throws Exception {
        ExportOptions options = new ExportOptions(
                nanos("--from", from, Long.MIN_VALUE), nanos("--to", to, Long.MAX_VALUE), instants, raw);
        try (RecordingFile recording = RecordingFile.open(file)) {
            String how = raw ? "left in, as asked for: " : "";
            ZeroWords.lines(recording.zeros()).forEach(line -> console.err().println(how + line));
            if (out.equals("-")) {
                TableExport.toStream(
                        recording, console.out(), TableFormat.CSV, options, new TerminalProgress("exporting", console));
                if (console.out().checkError()) {
                    throw new WorkFailedException("standard output does not take more; the table is not complete");
                }
            } else {
                toFile(recording, options);
            }
        } catch (CancellationException e) {
            throw new WorkFailedException("stopped before it was complete; nothing is left of it", e);
        } catch (RecordingException e) {
            throw e.file().equals(file) ? RecordingErrors.whenReading(e) : RecordingErrors.whenWriting(e);
        } catch (IOException e) {
            throw new WorkFailedException("standard output does not take more (" + e.getMessage() + ")", e);
        }
        return 0;
    }

    private void toFile(RecordingFile recording, ExportOptions options) throws RecordingException, InputException {
        Path target = Path.of(out);
        TableFormat format = TableFormat.of(target)
                .orElseThrow(() -> new InputException("--out " + out
                        + ": say a name that ends in .csv or .parquet, or - for CSV on standard output"));
        if (!replace && Files.exists(target)) {
            throw new InputException(target + ": is there already; say --replace, or choose another name");
        }
        TableExport.toFile(recording, target, format, options, new TerminalProgress("exporting", console));
        console.err().println("exported " + file + " to " + target + " (" + LiveRun.size(target) + ")");
    }

    private static long nanos(String option, @Nullable String time, long otherwise) throws InputException {
        try {
            return time == null ? otherwise : Durations.parseMomentNanos(time);
        } catch (InputException e) {
            throw new InputException(option + " " + e.getMessage(), e);
        }
    }
}
