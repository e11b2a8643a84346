package draftwitness.recording;

import draftwitness.input.InputException;
import draftwitness.reading.Channel;
import draftwitness.reading.Decimal;
import draftwitness.reading.Zeros;
import draftwitness.recording.RecordingException.Kind;
import java.io.IOException;
import java.io.OutputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.time.ZoneOffset;
import java.time.format.DateTimeFormatter;
import java.time.temporal.ChronoField;
import java.util.List;
import java.util.concurrent.CancellationException;
import org.jspecify.annotations.Nullable;

/**
 * Writes a recording as a table: one line a sample time (the union of all channels'), an empty cell where a channel has
 * no reading. Values have the channel's unit and, all alike, its finest decimals in the file; times have the decimals
 * that the file's time step needs. Zero offsets kept with the recording are taken off, unless raw readings are asked
 * for. Memory stays bounded. Lines end with LF. One owner thread.
 */
public final class CsvExport {
    private static final int BUFFER = 1 << 16;
    private static final int LINES_A_REPORT = 10_000;
    private static final DateTimeFormatter SECONDS =
            DateTimeFormatter.ofPattern("uuuu-MM-dd'T'HH:mm:ss").withZone(ZoneOffset.UTC);

    private final RecordingFile recording;
    private final ExportOptions options;
    private final Progress progress;
    private final List<Channel> channels;
    private final int[] decimals;
    private final Zeros zeros;
    private final int timeDecimals;
    private final long timeUnitNanos;
    private final StringBuilder text = new StringBuilder(2 * BUFFER);
    private long second = Long.MIN_VALUE;
    private String secondText = "";

    private CsvExport(RecordingFile recording, ExportOptions options, Progress progress)
            throws RecordingException, InputException {
        if (options.instants() && recording.header().start() == null) {
            throw new InputException(
                    recording.file() + ": its start is not known, so there are no instants; export seconds instead");
        }
        this.recording = recording;
        this.options = options;
        this.progress = progress;
        channels = recording.header().channels();
        zeros = options.raw() ? new Zeros() : recording.zeros();
        decimals = new int[channels.size()];
        for (int c = 0; c < decimals.length; c++) {
            decimals[c] = recording.decimals(channels.get(c));
        }
        timeDecimals = decimalsOf(recording.header());
        timeUnitNanos = powerOfTen(9 - timeDecimals);
    }

    /** Decimals of a second that show every time; for instants the start's own count too. */
    private int decimalsOf(draftwitness.reading.SessionHeader header) {
        int needed = decimalsOf(header.timeStepNanos());
        Instant start = header.start();
        return options.instants() && start != null
                ? Math.max(needed, decimalsOf(start.get(ChronoField.NANO_OF_SECOND)))
                : needed;
    }

    private static int decimalsOf(long nanos) {
        int decimals = 9;
        long rest = nanos;
        while (decimals > 0 && rest % 10 == 0) {
            rest /= 10;
            decimals--;
        }
        return decimals;
    }

    private static long powerOfTen(int exponent) {
        long power = 1;
        for (int i = 0; i < exponent; i++) {
            power *= 10;
        }
        return power;
    }

    /**
     * Writes a file, which appears, or replaces an older one, only when it is complete.
     *
     * @throws RecordingException if the recording cannot be read or the table not be written
     * @throws InputException if instants are wanted and the start is not known
     * @throws CancellationException if the progress said stop; nothing is left then
     */
    public static void toFile(RecordingFile recording, Path target, ExportOptions options, Progress progress)
            throws RecordingException, InputException {
        refuseItself(recording.file(), target);
        CsvExport export = new CsvExport(recording, options, progress);
        try (AtomicOutput output = AtomicOutput.beside(target)) {
            try (OutputStream out = Files.newOutputStream(output.passing())) {
                export.write(out);
            } catch (IOException e) {
                throw AtomicOutput.writing(target, e);
            }
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
    public static void toStream(RecordingFile recording, OutputStream out, ExportOptions options, Progress progress)
            throws IOException, RecordingException, InputException {
        new CsvExport(recording, options, progress).write(out);
        out.flush();
    }

    private void write(OutputStream out) throws IOException, RecordingException {
        head();
        long first = Math.max(options.fromNanos(), recording.firstNanos().orElse(0));
        long end = Math.min(options.toNanos(), recording.lastNanos().orElse(-1) + 1);
        ChannelReadings[] readings = open(first, end);
        long line = 0;
        for (long time = earliest(readings); time != Long.MAX_VALUE; time = earliest(readings)) {
            line(time, readings);
            if (text.length() > BUFFER) {
                flush(out);
            }
            if (++line % LINES_A_REPORT == 0) {
                report((double) (time - first) / Math.max(1, end - first));
            }
        }
        flush(out);
        report(1);
    }

    private ChannelReadings[] open(long first, long end) throws RecordingException {
        ChannelReadings[] readings = new ChannelReadings[channels.size()];
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

    private void head() {
        text.append(options.instants() ? "time" : "time_s");
        for (Channel channel : channels) {
            text.append(',')
                    .append(channel.tap().role())
                    .append(" [")
                    .append(channel.unit().symbol())
                    .append(']');
        }
        text.append('\n');
    }

    private static long earliest(@Nullable ChannelReadings[] readings) {
        long time = Long.MAX_VALUE;
        for (ChannelReadings r : readings) {
            time = r == null ? time : Math.min(time, r.timeNanos());
        }
        return time;
    }

    private void line(long time, @Nullable ChannelReadings[] readings) throws RecordingException {
        if (options.instants()) {
            instant(time);
        } else {
            Decimal.append(text, time / timeUnitNanos, timeDecimals);
        }
        for (int c = 0; c < decimals.length; c++) {
            text.append(',');
            ChannelReadings r = readings[c];
            if (r != null && r.timeNanos() == time) {
                long off = zeros.counts(channels.get(c).tap(), time, r.step());
                Conversion.append(
                        text, r.count() - off, r.step(), channels.get(c).unit(), decimals[c]);
                readings[c] = r.next() ? r : null;
            }
        }
        text.append('\n');
    }

    private void instant(long time) {
        Instant start = recording.header().start();
        Instant at = (start == null ? Instant.EPOCH : start).plusNanos(time);
        if (at.getEpochSecond() != second) {
            second = at.getEpochSecond();
            secondText = SECONDS.format(at);
        }
        text.append(secondText);
        if (timeDecimals > 0) {
            int from = text.length();
            Decimal.append(text, at.get(ChronoField.NANO_OF_SECOND) / timeUnitNanos, timeDecimals);
            text.deleteCharAt(from); // the zero before the point
        }
        text.append('Z');
    }

    private void flush(OutputStream out) throws IOException {
        out.write(text.toString().getBytes(StandardCharsets.US_ASCII));
        text.setLength(0);
    }
}
