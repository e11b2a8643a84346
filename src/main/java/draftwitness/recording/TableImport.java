package draftwitness.recording;

import draftwitness.input.InputException;
import draftwitness.reading.SessionHeader;
import draftwitness.reading.Slice;
import draftwitness.reading.SourceInfo;
import draftwitness.reading.Step;
import draftwitness.recording.parquet.ParquetSource;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.time.Instant;
import java.util.List;
import java.util.concurrent.CancellationException;
import org.jspecify.annotations.Nullable;

/**
 * Makes a recording from a table, CSV or Parquet; which of them it is, its first bytes tell. The decimals of times and
 * channels are learned from the first lines; if a later line has more, all lines are read to learn them, and the
 * writing starts anew. A table with a mistake leaves nothing behind, since the recording appears only when it is
 * complete. Memory stays bounded. One owner thread.
 */
public final class TableImport {
    private static final int LINES_A_REPORT = 10_000;
    /** Lines that are looked at first; as a rule the rest has the same decimals. */
    private static final int SAMPLE_LINES = 1000;
    /** A longer silence in a table is taken for a mistyped time. */
    private static final long LONGEST_SILENCE_NANOS = 366L * 86_400 * 1_000_000_000;

    private final Path file;
    private final ImportOptions options;
    private final Progress progress;
    private final boolean parquet;
    private int timeDecimals;
    private int[] decimals = new int[0];
    private @Nullable Instant start;
    private long firstNanos;
    private boolean empty = true;
    private double told;

    private TableImport(Path file, ImportOptions options, Progress progress) throws IOException {
        this.file = file;
        this.options = options;
        this.progress = progress;
        this.parquet = ParquetSource.isOne(file);
    }

    /**
     * Imports a table.
     *
     * @param target must not exist; appears only when it is complete
     * @throws InputException naming file, line and column, if the table cannot be taken
     * @throws RecordingException if the recording cannot be written
     * @throws CancellationException if the progress said stop; nothing is left then
     */
    public static void run(Path file, Path target, ImportOptions options, Progress progress)
            throws InputException, RecordingException {
        RecordingWriter.checkTarget(target);
        if (Files.isDirectory(file)) {
            throw new InputException(file + ": is a folder; name a table");
        }
        try {
            TableImport work = new TableImport(file, options, progress);
            work.learn(SAMPLE_LINES);
            if (!work.write(target)) {
                work.learn(Long.MAX_VALUE);
                work.write(target);
            }
        } catch (NoSuchFileException e) {
            throw new InputException(file + ": no such file", e);
        } catch (IOException e) {
            throw new InputException(file + ": cannot be read (" + e.getMessage() + ")", e);
        }
    }

    private ReadingTable open() throws IOException, InputException {
        return parquet ? ParquetTable.open(file) : CsvTable.open(file);
    }

    /**
     * Reads lines to learn from.
     *
     * @param most how many at most
     */
    private void learn(long most) throws IOException, InputException {
        try (ReadingTable table = open()) {
            if (table.hasInstants() && options.start() != null) {
                throw table.error("the table has its own instants; leave the start out");
            }
            decimals = new int[table.channels().size()];
            empty = true;
            for (long line = 0; line < most && table.next(); line++) {
                learn(table);
                report(line + 1, table);
            }
            start = options.start() == null ? table.start() : options.start();
        }
    }

    private void learn(ReadingTable table) {
        firstNanos = empty ? table.timeNanos : firstNanos;
        empty = false;
        timeDecimals = Math.max(timeDecimals, table.timeDecimals);
        for (int c = 0; c < decimals.length; c++) {
            if (table.present[c] && table.decimals[c] > decimals[c]) {
                decimals[c] = table.decimals[c];
            }
        }
    }

    private void report(long line, ReadingTable table) {
        if (line % LINES_A_REPORT == 0) {
            told = Math.max(told, table.fraction()); // does not go back when the writing starts anew
            report(told);
        }
    }

    private void report(double fraction) {
        if (!progress.goOn(fraction)) {
            throw new CancellationException("import of " + file + " was stopped");
        }
    }

    private SessionHeader header(ReadingTable table) {
        String source = parquet ? "parquet" : "csv";
        return new SessionHeader(
                start,
                options.title().isEmpty() ? table.title() : options.title(),
                ReadingTable.nanosOfDecimals(timeDecimals),
                table.channels(),
                List.of(new SourceInfo(source, source, "file:" + file.getFileName(), "")),
                options.setupToml().isEmpty() ? table.setupToml() : options.setupToml());
    }

    /** Writes the recording; false, and nothing is left, if a line has more decimals than were learned. */
    private boolean write(Path target) throws IOException, InputException, RecordingException {
        try (AtomicOutput output = AtomicOutput.beside(target)) {
            boolean fits;
            try (ReadingTable table = open()) {
                SessionHeader header = header(table);
                try (BulkStore store = new BulkStore(output.passing(), target, header)) {
                    fits = copy(table, store, header);
                    if (fits) {
                        store.finish();
                    }
                }
            }
            if (fits) {
                report(1);
                output.finish();
            }
            return fits;
        }
    }

    private boolean copy(ReadingTable table, BulkStore store, SessionHeader header)
            throws IOException, InputException, RecordingException {
        Step[] steps = new Step[decimals.length];
        for (int c = 0; c < steps.length; c++) {
            steps[c] = new Step(header.channels().get(c).unit(), decimals[c]);
        }
        long line = 0;
        long latest = firstNanos;
        while (table.next()) {
            if (table.timeNanos - latest > LONGEST_SILENCE_NANOS) {
                throw table.error("the time is more than a year after the line before; check it");
            }
            latest = Math.max(latest, table.timeNanos);
            if (table.timeDecimals > timeDecimals) {
                return false;
            }
            store.open(Slice.indexOf(latest));
            for (int c = 0; c < steps.length; c++) {
                if (table.present[c]) {
                    if (table.decimals[c] > decimals[c]) {
                        return false;
                    }
                    store.add(c, steps[c], table.timeNanos, recount(table, c, steps[c]));
                }
            }
            report(++line, table);
        }
        return true;
    }

    private static long recount(ReadingTable table, int channel, Step step) throws InputException {
        if (table.decimals[channel] == step.decimals()) {
            return table.count[channel];
        }
        try {
            return new Step(step.unit(), table.decimals[channel]).recount(table.count[channel], step);
        } catch (ArithmeticException e) {
            throw table.error("a number has too many digits for the " + step.decimals()
                    + " decimals that its column needs elsewhere");
        }
    }
}
