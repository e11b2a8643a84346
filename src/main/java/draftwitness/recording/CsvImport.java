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
 * Makes a recording from a table. The table is read twice: first everything is checked and the decimals of times and
 * channels are learned, then it is written; so a table with a mistake leaves nothing behind, and memory stays bounded.
 * One owner thread.
 */
public final class CsvImport {
    private static final int LINES_A_REPORT = 10_000;
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
            List<Channel> channels = work.learn();
            work.write(target, channels);
        } catch (NoSuchFileException e) {
            throw new InputException(csv + ": no such file", e);
        } catch (IOException e) {
            throw new InputException(csv + ": cannot be read (" + e.getMessage() + ")", e);
        }
    }

    private List<Channel> learn() throws IOException, InputException {
        try (InputStream in = Files.newInputStream(csv)) {
            CsvTable table = new CsvTable(csv.toString(), in);
            if (table.hasInstants() && options.start() != null) {
                throw table.error("the table has its own instants; leave the start out");
            }
            decimals = new int[table.channels().size()];
            long line = 0;
            long latest = 0;
            while (table.next()) {
                if (!empty && table.timeNanos - latest > LONGEST_SILENCE_NANOS) {
                    throw table.error("the time is more than a year after the line before; check it");
                }
                latest = empty ? table.timeNanos : Math.max(latest, table.timeNanos);
                learn(table);
                report(++line, table, 0);
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

    private void report(long line, CsvTable table, double from) {
        if (line % LINES_A_REPORT == 0 && !progress.goOn(from + 0.5 * Math.min(1, table.consumed() / size))) {
            throw new CancellationException("import of " + csv + " was stopped");
        }
    }

    private void write(Path target, List<Channel> channels) throws IOException, InputException, RecordingException {
        SessionHeader header = new SessionHeader(
                start,
                options.title(),
                CsvTable.nanosOfDecimals(timeDecimals),
                channels,
                List.of(new SourceInfo(CsvTable.SOURCE, CsvTable.SOURCE, "file:" + csv.getFileName(), "")),
                options.setupToml());
        try (AtomicOutput output = AtomicOutput.beside(target)) {
            try (InputStream in = Files.newInputStream(csv);
                    RecordingWriter writer = RecordingWriter.bulk(output.passing(), target, header)) {
                copy(new CsvTable(csv.toString(), in), writer, header);
            }
            if (!progress.goOn(1)) {
                throw new CancellationException("import of " + csv + " was stopped");
            }
            output.finish();
        }
    }

    private void copy(CsvTable table, RecordingWriter writer, SessionHeader header)
            throws IOException, InputException, RecordingException {
        Slicer slicer = new Slicer(header.channels(), Slice.indexOf(firstNanos));
        Step[] steps = new Step[decimals.length];
        for (int c = 0; c < steps.length; c++) {
            steps[c] = new Step(header.channels().get(c).unit(), decimals[c]);
        }
        long line = 0;
        while (table.next()) {
            long cell = Slice.indexOf(table.timeNanos);
            while (slicer.openCell() < cell) {
                writer.append(slicer.next());
            }
            for (int c = 0; c < steps.length; c++) {
                if (table.present[c]) {
                    slicer.add(c, steps[c], table.timeNanos, recount(table, c, steps[c]));
                }
            }
            report(++line, table, 0.5);
        }
        if (!empty) {
            writer.append(slicer.next());
        }
    }

    private static long recount(CsvTable table, int channel, Step step) throws InputException {
        try {
            return new Step(step.unit(), table.decimals[channel]).recount(table.count[channel], step);
        } catch (ArithmeticException e) {
            throw table.error("a number has too many digits for the " + step.decimals()
                    + " decimals that its column needs elsewhere");
        }
    }
}
