package draftwitness.recording;

import draftwitness.input.InputException;
import draftwitness.input.Roles;
import draftwitness.reading.Channel;
import draftwitness.reading.Tap;
import draftwitness.reading.Unit;
import java.io.IOException;
import java.io.InputStream;
import java.time.DateTimeException;
import java.time.Instant;
import java.time.OffsetDateTime;
import java.time.temporal.ChronoField;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.EnumSet;
import java.util.List;
import java.util.Set;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;

/**
 * A table of readings: {@code time_s} or {@code time}, then one column a channel named {@code ROLE [UNIT]}. After
 * {@link #next()} the line's numbers stand in the fields. One owner thread.
 */
final class CsvTable {
    static final String SOURCE = "csv";

    private static final Pattern COLUMN = Pattern.compile("(\\S+)\\s*\\[(\\S+)\\]");
    private static final int FINEST = 9;
    private static final long[] NANOS = {
        1_000_000_000, 100_000_000, 10_000_000, 1_000_000, 100_000, 10_000, 1000, 100, 10, 1
    };

    private final CsvReader reader;
    private final List<Channel> channels = new ArrayList<>();
    private final boolean instants;
    private final long[] lastNanos;
    private @Nullable Instant start;

    /** Time of the line, from the start. */
    long timeNanos;

    int timeDecimals;
    /** Cells of the line, one a channel. */
    final boolean[] present;

    final long[] count;
    final int[] decimals;

    CsvTable(String file, InputStream in) throws IOException, InputException {
        reader = new CsvReader(file, in);
        List<String> columns = reader.header();
        String time = columns.get(0);
        if (!time.equals("time_s") && !time.equals("time")) {
            throw reader.error("the first column is '" + CsvReader.shortened(time)
                    + "'; it must be time_s (seconds) or time (ISO 8601 instants)");
        }
        instants = time.equals("time");
        Set<Tap> taps = EnumSet.noneOf(Tap.class);
        for (int i = 1; i < columns.size(); i++) {
            Channel channel = channel(columns.get(i), i);
            if (!taps.add(channel.tap())) {
                throw reader.error("two columns for " + channel.tap().role() + "; a tap has one");
            }
            channels.add(channel);
        }
        if (channels.isEmpty()) {
            throw reader.error("there is no column with readings, such as 'draft.switch [Pa]'");
        }
        present = new boolean[channels.size()];
        count = new long[channels.size()];
        decimals = new int[channels.size()];
        lastNanos = new long[channels.size()];
        Arrays.fill(lastNanos, Long.MIN_VALUE);
    }

    private Channel channel(String name, int column) throws InputException {
        Matcher matcher = COLUMN.matcher(name);
        if (!matcher.matches()) {
            throw reader.error("column " + (column + 1) + " is '" + CsvReader.shortened(name)
                    + "'; it must be a role with its unit, such as 'draft.switch [Pa]'");
        }
        String role = matcher.group(1);
        Tap tap = tap(role);
        String symbol = matcher.group(2);
        Unit unit = Unit.ofSymbol(symbol)
                .orElseThrow(() -> reader.error("'" + symbol + "' is not a unit; known: " + Unit.symbols()));
        if (unit.quantity() != tap.quantity()) {
            throw reader.error(role + " cannot be in " + symbol);
        }
        return new Channel(tap, SOURCE, role, unit);
    }

    private Tap tap(String role) throws InputException {
        try {
            return Roles.parse(role);
        } catch (InputException e) {
            throw reader.error(String.valueOf(e.getMessage()));
        }
    }

    List<Channel> channels() {
        return channels;
    }

    boolean hasInstants() {
        return instants;
    }

    /** The first line's instant, where there are instants. */
    @Nullable
    Instant start() {
        return start;
    }

    long consumed() {
        return reader.consumed();
    }

    InputException error(String problem) {
        return reader.error(problem);
    }

    /**
     * Reads the next line.
     *
     * @return false at the end
     * @throws InputException naming file, line and column, if the line is not as the header says
     */
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
                follow(c);
            }
        }
        if (reader.anotherCell()) {
            throw ragged();
        }
        return true;
    }

    private void follow(int channel) throws InputException {
        if (timeNanos <= lastNanos[channel]) {
            throw reader.cellError(
                    channel + 1, "its time does not follow that of the reading before; sort the table by time");
        }
        lastNanos[channel] = timeNanos;
    }

    private InputException ragged() {
        return reader.error(
                "the line does not have " + (present.length + 1) + " cells as the header has; check separators");
    }

    private void readTime() throws InputException {
        if (instants) {
            readInstant();
            return;
        }
        if (!reader.number()) {
            throw reader.cellError(0, "the time is missing");
        }
        timeDecimals = reader.decimals;
        try {
            timeNanos = Math.multiplyExact(reader.count, NANOS[timeDecimals]);
        } catch (ArithmeticException e) {
            throw tooFar();
        }
        if (Math.abs((double) timeNanos) > 0x1p62) {
            throw tooFar();
        }
    }

    private InputException tooFar() {
        return reader.cellError(0, "the time is more than 146 years from the start");
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
        timeDecimals = point < 0 ? 0 : Math.min(FINEST, end - point - 1);
        Instant first = start == null ? at : start;
        start = first;
        try {
            timeNanos = Math.addExact(
                    Math.multiplyExact(at.getEpochSecond() - first.getEpochSecond(), NANOS[0]),
                    at.get(ChronoField.NANO_OF_SECOND) - first.get(ChronoField.NANO_OF_SECOND));
        } catch (ArithmeticException e) {
            throw tooFar();
        }
    }

    static long nanosOfDecimals(int decimals) {
        return NANOS[decimals];
    }
}
