package draftwitness.recording;

import draftwitness.reading.SessionHeader;
import draftwitness.reading.Step;
import draftwitness.recording.RecordingException.Kind;
import draftwitness.recording.parquet.ParquetColumn;
import draftwitness.recording.parquet.ParquetSink;
import java.io.IOException;
import java.io.OutputStream;
import java.time.Instant;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;

/** Writes a table as Parquet: the same columns as in CSV, with start, title and setup as notes. One owner thread. */
final class ParquetRows implements TableSink {
    private static final int FINEST = 9;

    private final RecordingFile recording;
    private final TableShape shape;
    private final ParquetSink sink;
    private final long timeUnitNanos;
    /** Units of the instants' column in a second, and those from 1970 to the start, whole and rest. */
    private final long startUnits;

    ParquetRows(OutputStream out, RecordingFile recording, TableShape shape) throws IOException, RecordingException {
        this.recording = recording;
        this.shape = shape;
        int decimals = shape.instants ? Math.max(3, (shape.timeDecimals + 2) / 3 * 3) : shape.timeDecimals;
        timeUnitNanos = ReadingTable.nanosOfDecimals(decimals);
        startUnits = shape.instants ? units(shape.start, decimals) : 0;
        sink = new ParquetSink(out, Software.version(), columns(shape, decimals), notes(recording.header()));
    }

    private long units(Instant start, int decimals) throws RecordingException {
        try {
            return Math.addExact(
                    Math.multiplyExact(start.getEpochSecond(), ReadingTable.nanosOfDecimals(FINEST - decimals)),
                    start.getNano() / timeUnitNanos);
        } catch (ArithmeticException e) {
            throw new RecordingException(
                    Kind.UNWRITABLE,
                    recording.file(),
                    "its start is too far from 1970 for Parquet's instants; export" + " seconds instead",
                    e);
        }
    }

    private static List<ParquetColumn> columns(TableShape shape, int timeDecimals) {
        List<ParquetColumn> columns = new ArrayList<>();
        columns.add(
                shape.instants
                        ? new ParquetColumn(ReadingTable.INSTANTS, ParquetColumn.Kind.INSTANT, timeDecimals, false)
                        : new ParquetColumn(ReadingTable.SECONDS, ParquetColumn.Kind.DECIMAL, timeDecimals, false));
        for (int c = 0; c < shape.channels.size(); c++) {
            columns.add(new ParquetColumn(
                    ReadingTable.columnName(shape.channels.get(c)),
                    ParquetColumn.Kind.DECIMAL,
                    shape.decimals(c),
                    true));
        }
        return columns;
    }

    private static Map<String, String> notes(SessionHeader header) {
        Map<String, String> notes = new LinkedHashMap<>();
        Instant start = header.start();
        put(notes, ParquetTable.START, start == null ? "" : start.toString());
        put(notes, ParquetTable.TIME_DECIMALS, Integer.toString(TableShape.decimalsOf(header.timeStepNanos())));
        put(notes, ParquetTable.TITLE, header.title());
        put(notes, ParquetTable.SETUP, header.setupToml());
        return notes;
    }

    private static void put(Map<String, String> notes, String key, String value) {
        if (!value.isEmpty()) {
            notes.put(key, value);
        }
    }

    @Override
    public void time(long timeNanos) {
        sink.put(0, startUnits + timeNanos / timeUnitNanos);
    }

    @Override
    public void reading(int channel, long count, Step step) throws RecordingException {
        try {
            sink.put(
                    channel + 1,
                    Conversion.count(count, step, shape.channels.get(channel).unit(), shape.decimals(channel)));
        } catch (ArithmeticException | IllegalArgumentException e) {
            throw new RecordingException(
                    Kind.UNWRITABLE,
                    recording.file(),
                    "a reading of " + shape.channels.get(channel).tap().role() + " has more than "
                            + ParquetColumn.MOST_DIGITS + " digits, which Parquet's numbers do not hold; export CSV",
                    e);
        }
    }

    @Override
    public void endRow() throws IOException {
        sink.endRow();
    }

    @Override
    public void finish() throws IOException {
        sink.finish();
        sink.close();
    }
}
