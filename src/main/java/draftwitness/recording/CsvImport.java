package draftwitness.recording;

import draftwitness.input.InputException;
import draftwitness.reading.Channel;
import draftwitness.reading.SessionHeader;
import draftwitness.reading.Slice;
import draftwitness.reading.SourceInfo;
import draftwitness.reading.Step;
import java.io.IOException;
import java.io.InputStream;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.time.Instant;
import java.util.List;
import java.util.concurrent.CancellationException;
import org.jspecify.annotations.Nullable;

/**
 * Makes a recording from a table. The decimals of times and channels are learned from the first lines; if a later line
 * has more, all lines are read to learn them, and the writing starts anew. A table with a mistake leaves nothing
 * behind, since the recording appears only when it is complete. Memory stays bounded. One owner thread.
 */
public final class CsvImport {
    private static final int LINES_A_REPORT = 10_000;
    /** Lines that are looked at first; as a rule the rest has the same decimals. */
    private static final int SAMPLE_LINES = 1000;
    /** A longer silence in a table is taken for a mistyped time. */
    private static final long LONGEST_SILENCE_NANOS = 366L * 86_400 * 1_000_000_000;

    private final Path csv;
    private final ImportOptions options;
    private final Progress progress;
    private final double size;
    private int timeDecimals;
    private int[] decimals = new int[0];
    private @Nullable Instant start;
    private long firstNanos;
    private boolean empty = true;

    private CsvImport(Path csv, ImportOptions options, Progress progress, long size) {
        this.csv = csv;
        this.options = options;
        this.progress = progress;
        this.size = (double) Math.max(1, size);
    }

    /**
     * Imports a table.
     *
     * @param target must not exist; appears only when it is complete
     * @throws InputException naming file, line and column, if the table cannot be taken
     * @throws RecordingException if the recording cannot be written
     * @throws CancellationException if the progress said stop; nothing is left then
     */
    public static void run(Path csv, Path target, ImportOptions options, Progress progress)
            throws InputException, RecordingException {
        RecordingWriter.checkTarget(target);
        try {
            CsvImport work = new CsvImport(csv, options, progress, Files.size(csv));
            if (!work.write(target, work.learn(SAMPLE_LINES))) {
                work.write(target, work.learn(Long.MAX_VALUE));
            }
        } catch (NoSuchFileException e) {
            throw new InputException(csv + ": no such file", e);
        } catch (IOException e) {
            throw new InputException(csv + ": cannot be read (" + e.getMessage() + ")", e);
        }
    }

    /**
     * Reads lines to learn from.
     *
     * @param most how many at most
     */
    private List<Channel> learn(long most) throws IOException, InputException {
        try (InputStream in = Files.newInputStream(csv)) {
            CsvTable table = new CsvTable(csv.toString(), in);
            if (table.hasInstants() && options.start() != null) {
                throw table.error("the table has its own instants; leave the start out");
            }
            decimals = new int[table.channels().size()];
            empty = true;
            for (long line = 0; line < most && table.next(); line++) {
                learn(table);
                report(line + 1, table);
            }
            start = table.hasInstants() ? table.start() : options.start();
            return table.channels();
        }
    }

    private void learn(CsvTable table) {
        firstNanos = empty ? table.timeNanos : firstNanos;
        empty = false;
        timeDecimals = Math.max(timeDecimals, table.timeDecimals);
        for (int c = 0; c < decimals.length; c++) {
            if (table.present[c] && table.decimals[c] > decimals[c]) {
                decimals[c] = table.decimals[c];
            }
        }
    }

    private void report(long line, CsvTable table) {
        if (line % LINES_A_REPORT == 0 && !progress.goOn(Math.min(1, table.consumed() / size))) {
            throw new CancellationException("import of " + csv + " was stopped");
        }
    }

    /** Writes the recording; false, and nothing is left, if a line has more decimals than were learned. */
    private boolean write(Path target, List<Channel> channels) throws IOException, InputException, RecordingException {
        SessionHeader header = new SessionHeader(
                start,
                options.title(),
                CsvTable.nanosOfDecimals(timeDecimals),
                channels,
                List.of(new SourceInfo(CsvTable.SOURCE, CsvTable.SOURCE, "file:" + csv.getFileName(), "")),
                options.setupToml());
        try (AtomicOutput output = AtomicOutput.beside(target)) {
            boolean fits;
            try (InputStream in = Files.newInputStream(csv);
                    RecordingWriter writer = RecordingWriter.bulk(output.passing(), target, header)) {
                fits = copy(new CsvTable(csv.toString(), in), writer, header);
            }
            if (fits) {
                if (!progress.goOn(1)) {
                    throw new CancellationException("import of " + csv + " was stopped");
                }
                output.finish();
            }
            return fits;
        }
    }

    private boolean copy(CsvTable table, RecordingWriter writer, SessionHeader header)
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
            writer.open(Slice.indexOf(latest));
            for (int c = 0; c < steps.length; c++) {
                if (table.present[c]) {
                    if (table.decimals[c] > decimals[c]) {
                        return false;
                    }
                    writer.add(c, steps[c], table.timeNanos, recount(table, c, steps[c]));
                }
            }
            report(++line, table);
        }
        return true;
    }

    private static long recount(CsvTable table, int channel, Step step) throws InputException {
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
