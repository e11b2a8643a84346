package draftwitness.recording;

import draftwitness.reading.Decimal;
import draftwitness.reading.Step;
import java.io.IOException;
import java.io.OutputStream;
import java.nio.charset.StandardCharsets;
import java.time.Instant;
import java.time.ZoneOffset;
import java.time.format.DateTimeFormatter;
import java.time.temporal.ChronoField;

/** Writes a table as comma-separated values; lines end with LF. One owner thread. */
final class CsvSink implements TableSink {
    private static final int BUFFER = 1 << 16;
    private static final DateTimeFormatter SECONDS =
            DateTimeFormatter.ofPattern("uuuu-MM-dd'T'HH:mm:ss").withZone(ZoneOffset.UTC);

    private final OutputStream out;
    private final TableShape shape;
    private final long timeUnitNanos;
    private final StringBuilder text = new StringBuilder(2 * BUFFER);
    private int cells;
    private long second = Long.MIN_VALUE;
    private String secondText = "";

    CsvSink(OutputStream out, TableShape shape) {
        this.out = out;
        this.shape = shape;
        timeUnitNanos = ReadingTable.nanosOfDecimals(shape.timeDecimals);
        text.append(shape.instants ? ReadingTable.INSTANTS : ReadingTable.SECONDS);
        shape.channels.forEach(c -> text.append(',').append(ReadingTable.columnName(c)));
        text.append('\n');
    }

    @Override
    public void time(long timeNanos) {
        cells = 0;
        if (shape.instants) {
            instant(timeNanos);
        } else {
            Decimal.append(text, timeNanos / timeUnitNanos, shape.timeDecimals);
        }
    }

    private void instant(long timeNanos) {
        Instant at = shape.start.plusNanos(timeNanos);
        if (at.getEpochSecond() != second) {
            second = at.getEpochSecond();
            secondText = SECONDS.format(at);
        }
        text.append(secondText);
        if (shape.timeDecimals > 0) {
            int from = text.length();
            Decimal.append(text, at.get(ChronoField.NANO_OF_SECOND) / timeUnitNanos, shape.timeDecimals);
            text.deleteCharAt(from); // the zero before the point
        }
        text.append('Z');
    }

    @Override
    public void reading(int channel, long count, Step step) {
        fillTo(channel + 1);
        Conversion.append(text, count, step, shape.channels.get(channel).unit(), shape.decimals(channel));
    }

    private void fillTo(int number) {
        while (cells < number) {
            text.append(',');
            cells++;
        }
    }

    @Override
    public void endRow() throws IOException {
        fillTo(shape.channels.size());
        text.append('\n');
        if (text.length() > BUFFER) {
            flush();
        }
    }

    private void flush() throws IOException {
        out.write(text.toString().getBytes(StandardCharsets.US_ASCII));
        text.setLength(0);
    }

    @Override
    public void finish() throws IOException {
        flush();
    }
}
