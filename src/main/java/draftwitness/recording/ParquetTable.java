package draftwitness.recording;

import draftwitness.input.InputException;
import draftwitness.recording.parquet.ParquetColumn;
import draftwitness.recording.parquet.ParquetColumn.Kind;
import draftwitness.recording.parquet.ParquetSource;
import java.io.IOException;
import java.nio.file.Path;
import java.time.DateTimeException;
import java.time.Instant;
import java.util.Map;

/**
 * A table of readings in the Parquet format: the same columns as in CSV. Numbers may be decimals, whole or binary
 * fractions; instants have to be in UTC. Notes that our own export leaves give start, title and setup. One owner
 * thread.
 */
final class ParquetTable extends ReadingTable {
    static final String START = "draftwitness.start";
    /** Decimals of a second that the recording's times have. */
    static final String TIME_DECIMALS = "draftwitness.time-decimals";

    static final String TITLE = "draftwitness.title";
    static final String SETUP = "draftwitness.setup";

    private static final int FINEST = 9;

    private final Path file;
    private final ParquetSource source;
    private final Map<String, String> notes;
    private final int notedDecimals;

    private ParquetTable(Path file, ParquetSource source) throws InputException {
        super(
                "parquet",
                source.columns().stream().map(ParquetColumn::name).toList(),
                problem -> new InputException(file + ": " + problem));
        this.file = file;
        this.source = source;
        this.notes = source.notes();
        String noted = notes.getOrDefault(TIME_DECIMALS, "");
        notedDecimals = noted.matches("[0-9]") ? Integer.parseInt(noted) : 0;
        checkKinds();
        startsAt(startNoted());
    }

    /**
     * Opens a table and reads its description.
     *
     * @throws InputException if it is damaged, or not a table of readings
     */
    static ParquetTable open(Path file) throws IOException, InputException {
        ParquetSource source;
        try {
            source = ParquetSource.open(file);
        } catch (IOException e) {
            throw new InputException(file + ": " + e.getMessage(), e);
        }
        try {
            return new ParquetTable(file, source);
        } catch (InputException e) {
            source.close();
            throw e;
        }
    }

    private void checkKinds() throws InputException {
        for (int c = 0; c < source.columns().size(); c++) {
            ParquetColumn column = source.columns().get(c);
            boolean time = c == 0 && hasInstants();
            if (time && column.kind() == Kind.LOCAL_TIME) {
                throw cellError(c, "its times have no zone; write them in UTC, with their zone");
            }
            if (time && column.kind() != Kind.INSTANT) {
                throw cellError(c, "it has no instants; seconds belong into a column time_s");
            }
            if (!time && column.kind() != Kind.DECIMAL && column.kind() != Kind.FLOATING) {
                throw cellError(c, "it does not hold numbers");
            }
        }
    }

    private @org.jspecify.annotations.Nullable Instant startNoted() throws InputException {
        String text = notes.getOrDefault(START, "");
        try {
            return text.isEmpty() ? null : Instant.parse(text);
        } catch (DateTimeException e) {
            throw new InputException(
                    file + ": note " + START + ": '" + CsvReader.shortened(text) + "' is no instant", e);
        }
    }

    @Override
    String title() {
        return notes.getOrDefault(TITLE, "");
    }

    @Override
    String setupToml() {
        return notes.getOrDefault(SETUP, "");
    }

    @Override
    InputException error(String problem) {
        return new InputException(file + ": row " + source.row() + ": " + problem);
    }

    @Override
    InputException cellError(int column, String problem) {
        String where = source.row() == 0 ? "" : "row " + source.row() + ": ";
        return new InputException(file + ": " + where + "column "
                + CsvReader.shortened(source.columns().get(column).name()) + ": " + problem);
    }

    @Override
    double fraction() {
        return Math.min(1, (double) source.row() / Math.max(1, source.rows()));
    }

    @Override
    boolean next() throws IOException, InputException {
        try {
            if (!source.next()) {
                if (source.row() != source.rows()) {
                    throw error("the file says it has " + source.rows() + " rows; it is damaged");
                }
                return false;
            }
        } catch (IOException e) {
            throw error("cannot be read: " + e.getMessage());
        }
        if (!source.present(0)) {
            throw cellError(0, "the time is missing");
        }
        if (hasInstants()) {
            time(instant(source.count(0), source.decimals(0)), source.decimals(0));
            // The format has milliseconds, microseconds and nanoseconds only; what the times need may be coarser.
            timeDecimals = Math.max(notedDecimals, TableShape.decimalsOf(timeNanos));
        } else {
            time(source.count(0), source.decimals(0));
        }
        for (int c = 0; c < present.length; c++) {
            present[c] = source.present(c + 1);
            if (present[c]) {
                count[c] = source.count(c + 1);
                decimals[c] = source.decimals(c + 1);
                follow(c);
            }
        }
        return true;
    }

    private static Instant instant(long count, int secondsDecimals) {
        long unitsASecond = nanosOfDecimals(FINEST - secondsDecimals);
        return Instant.ofEpochSecond(
                Math.floorDiv(count, unitsASecond),
                Math.floorMod(count, unitsASecond) * nanosOfDecimals(secondsDecimals));
    }

    @Override
    public void close() throws IOException {
        source.close();
    }
}
