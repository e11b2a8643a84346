package draftwitness.recording;

import draftwitness.input.InputException;
import draftwitness.reading.Zeros;
import draftwitness.recording.RecordingException.Kind;
import java.io.BufferedOutputStream;
import java.io.IOException;
import java.io.OutputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.concurrent.CancellationException;
import org.jspecify.annotations.Nullable;

/**
 * Writes a recording as a table: one row a sample time (the union of all channels'), no value where a channel has no
 * reading. Values have the channel's unit and, all alike, its finest decimals in the file; times have the decimals that
 * the file's time step needs. Zero offsets kept with the recording are taken off, unless raw readings are asked for.
 * Memory stays bounded. One owner thread.
 */
public final class TableExport {
    private static final int ROWS_A_REPORT = 10_000;

    private final RecordingFile recording;
    private final ExportOptions options;
    private final Progress progress;
    private final TableShape shape;
    private final Zeros zeros;

    private TableExport(RecordingFile recording, ExportOptions options, Progress progress)
            throws RecordingException, InputException {
        this.recording = recording;
        this.options = options;
        this.progress = progress;
        this.shape = new TableShape(recording, options.instants());
        this.zeros = options.raw() ? new Zeros() : recording.zeros();
    }

    /**
     * Writes a file, which appears, or replaces an older one, only when it is complete.
     *
     * @throws RecordingException if the recording cannot be read or the table not be written
     * @throws InputException if instants are wanted and the start is not known
     * @throws CancellationException if the progress said stop; nothing is left then
     */
    public static void toFile(
            RecordingFile recording, Path target, TableFormat format, ExportOptions options, Progress progress)
            throws RecordingException, InputException {
        refuseItself(recording.file(), target);
        TableExport export = new TableExport(recording, options, progress);
        try (AtomicOutput output = AtomicOutput.beside(target)) {
            try (OutputStream out = new BufferedOutputStream(Files.newOutputStream(output.passing()), 1 << 16)) {
                export.write(out, format);
            } catch (IOException e) {
                throw AtomicOutput.writing(target, e);
            }
            export.report(1);
            output.finish();
        }
    }

    static void refuseItself(Path recording, Path target) throws RecordingException {
        try {
            if (Files.exists(target) && Files.isSameFile(recording, target)) {
                throw new RecordingException(Kind.TARGET, target, "is the recording itself; choose another name");
            }
        } catch (IOException e) {
            throw AtomicOutput.writing(target, e);
        }
    }

    /**
     * Writes to a stream, which stays open.
     *
     * @throws IOException if the stream cannot take it
     * @throws RecordingException if the recording cannot be read
     * @throws InputException if instants are wanted and the start is not known
     * @throws CancellationException if the progress said stop
     */
    public static void toStream(
            RecordingFile recording, OutputStream out, TableFormat format, ExportOptions options, Progress progress)
            throws IOException, RecordingException, InputException {
        TableExport export = new TableExport(recording, options, progress);
        export.write(out, format);
        export.report(1);
        out.flush();
    }

    private void write(OutputStream out, TableFormat format) throws IOException, RecordingException {
        TableSink sink = switch (format) {
            case CSV -> new CsvSink(out, shape);
            case PARQUET -> new ParquetRows(out, recording, shape);
        };
        long first = Math.max(options.fromNanos(), recording.firstNanos().orElse(0));
        long end = Math.min(options.toNanos(), recording.lastNanos().orElse(-1) + 1);
        @Nullable ChannelReadings[] readings = open(first, end);
        long row = 0;
        for (long time = earliest(readings); time != Long.MAX_VALUE; time = earliest(readings)) {
            row(sink, time, readings);
            if (++row % ROWS_A_REPORT == 0) {
                report((double) (time - first) / Math.max(1, end - first));
            }
        }
        sink.finish();
    }

    private @Nullable ChannelReadings[] open(long first, long end) throws RecordingException {
        @Nullable ChannelReadings[] readings = new ChannelReadings[shape.channels.size()];
        for (int c = 0; c < readings.length && first < end; c++) {
            ChannelReadings r = new ChannelReadings(
                    recording.cursor(c, first, end), recording.header().timeStepNanos(), first, end);
            readings[c] = r.next() ? r : null;
        }
        return readings;
    }

    private void report(double fraction) {
        if (!progress.goOn(fraction)) {
            throw new CancellationException("export of " + recording.file() + " was stopped");
        }
    }

    private static long earliest(@Nullable ChannelReadings[] readings) {
        long time = Long.MAX_VALUE;
        for (ChannelReadings r : readings) {
            time = r == null ? time : Math.min(time, r.timeNanos());
        }
        return time;
    }

    private void row(TableSink sink, long time, @Nullable ChannelReadings[] readings)
            throws IOException, RecordingException {
        sink.time(time);
        for (int c = 0; c < readings.length; c++) {
            ChannelReadings r = readings[c];
            if (r != null && r.timeNanos() == time) {
                long off = zeros.counts(shape.channels.get(c).tap(), time, r.step());
                sink.reading(c, r.count() - off, r.step());
                readings[c] = r.next() ? r : null;
            }
        }
        sink.endRow();
    }
}
