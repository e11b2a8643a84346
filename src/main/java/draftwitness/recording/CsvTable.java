package draftwitness.recording;

import draftwitness.input.InputException;
import java.io.IOException;
import java.io.InputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.DateTimeException;
import java.time.Instant;
import java.time.OffsetDateTime;

/** A table of readings as comma-separated values. One owner thread. */
final class CsvTable extends ReadingTable {
    private static final int FINEST = 9;

    private final CsvReader reader;
    private final InputStream in;
    private final double size;

    private CsvTable(CsvReader reader, InputStream in, double size) throws IOException, InputException {
        super("csv", reader.header(), reader::error);
        this.reader = reader;
        this.in = in;
        this.size = size;
    }

    /**
     * Opens a table and reads its header line.
     *
     * @throws InputException if that is not the header of a table of readings
     */
    static CsvTable open(Path csv) throws IOException, InputException {
        InputStream in = Files.newInputStream(csv);
        try {
            return new CsvTable(new CsvReader(csv.toString(), in), in, Math.max(1, Files.size(csv)));
        } catch (IOException | InputException e) {
            in.close();
            throw e;
        }
    }

    @Override
    double fraction() {
        return Math.min(1, reader.consumed() / size);
    }

    @Override
    InputException error(String problem) {
        return reader.error(problem);
    }

    @Override
    InputException cellError(int column, String problem) {
        return reader.cellError(column, problem);
    }

    @Override
    boolean next() throws IOException, InputException {
        if (!reader.nextLine()) {
            return false;
        }
        readTime();
        for (int c = 0; c < present.length; c++) {
            if (!reader.anotherCell()) {
                throw ragged();
            }
            present[c] = reader.number();
            if (present[c]) {
                count[c] = reader.count;
                decimals[c] = reader.decimals;
            }
        }
        if (reader.anotherCell()) {
            throw ragged();
        }
        for (int c = 0; c < present.length; c++) {
            if (present[c]) {
                follow(c);
            }
        }
        return true;
    }

    /** Where the line ends early, or goes on. */
    private InputException ragged() throws InputException {
        int expected = present.length + 1;
        int cells = reader.cell() + 1;
        if (cells <= expected) {
            return reader.error("the line has only " + cells + " of the header's " + expected
                    + " cells; complete it, or leave the cell empty between its commas");
        }
        reader.cellText();
        while (reader.anotherCell()) {
            reader.cellText();
        }
        return reader.error("the line has " + (reader.cell() + 1) + " cells, the header has " + expected
                + " cells; if the numbers have decimal commas (0,5), write them with points (0.5)");
    }

    private void readTime() throws InputException {
        if (hasInstants()) {
            readInstant();
            return;
        }
        if (!reader.number()) {
            throw reader.cellError(0, "the time is missing");
        }
        time(reader.count, reader.decimals);
    }

    private void readInstant() throws InputException {
        String text = reader.cellText();
        Instant at;
        try {
            at = OffsetDateTime.parse(text).toInstant();
        } catch (DateTimeException e) {
            throw reader.cellError(
                    0,
                    "'" + CsvReader.shortened(text)
                            + "' is not an instant with its zone, such as 2026-01-17T22:10:00Z");
        }
        int point = text.indexOf('.');
        int end = point + 1;
        while (end < text.length() && Character.isDigit(text.charAt(end))) {
            end++;
        }
        time(at, point < 0 ? 0 : Math.min(FINEST, end - point - 1));
    }

    @Override
    public void close() throws IOException {
        in.close();
    }
}
