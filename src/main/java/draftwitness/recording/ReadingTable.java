package draftwitness.recording;

import draftwitness.input.InputException;
import draftwitness.input.Roles;
import draftwitness.reading.Channel;
import draftwitness.reading.Tap;
import draftwitness.reading.Unit;
import java.io.IOException;
import java.time.Instant;
import java.time.temporal.ChronoField;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.EnumSet;
import java.util.List;
import java.util.Set;
import java.util.function.Function;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;

/**
 * A table of readings, read line by line: {@code time_s} or {@code time}, then one column a channel named {@code ROLE
 * [UNIT]}. After {@link #next()} the line's numbers stand in the fields. One owner thread.
 */
abstract class ReadingTable implements AutoCloseable {
    static final String SECONDS = "time_s";
    static final String INSTANTS = "time";

    private static final Pattern COLUMN = Pattern.compile("(\\S+)\\s*\\[(\\S+)\\]");
    private static final long[] NANOS = {
        1_000_000_000, 100_000_000, 10_000_000, 1_000_000, 100_000, 10_000, 1000, 100, 10, 1
    };

    private final List<Channel> channels = new ArrayList<>();
    private final boolean instants;
    private final long[] lastNanos;
    private @Nullable Instant start;

    /** Time of the line, from the start. */
    long timeNanos;

    int timeDecimals;
    /** Cells of the line, one a channel: {@code count / 10^decimals} where present. */
    final boolean[] present;

    final long[] count;
    final int[] decimals;

    /**
     * Takes the names of the columns.
     *
     * @param source what the channels are said to come from
     * @param trouble makes an error out of what is wrong with the names
     */
    ReadingTable(String source, List<String> columns, Function<String, InputException> trouble) throws InputException {
        String time = columns.isEmpty() ? "" : columns.get(0);
        if (!time.equals(SECONDS) && !time.equals(INSTANTS)) {
            throw trouble.apply("the first column is '" + CsvReader.shortened(time)
                    + "'; it must be time_s (seconds) or time (ISO 8601 instants)");
        }
        instants = time.equals(INSTANTS);
        Set<Tap> taps = EnumSet.noneOf(Tap.class);
        for (int i = 1; i < columns.size(); i++) {
            Channel channel = channel(source, columns.get(i), i, trouble);
            if (!taps.add(channel.tap())) {
                throw trouble.apply("two columns for " + channel.tap().role() + "; a tap has one");
            }
            channels.add(channel);
        }
        if (channels.isEmpty()) {
            throw trouble.apply("there is no column with readings, such as 'draft.switch [Pa]'");
        }
        present = new boolean[channels.size()];
        count = new long[channels.size()];
        decimals = new int[channels.size()];
        lastNanos = new long[channels.size()];
        Arrays.fill(lastNanos, Long.MIN_VALUE);
    }

    private static Channel channel(String source, String name, int column, Function<String, InputException> trouble)
            throws InputException {
        Matcher matcher = COLUMN.matcher(name);
        if (!matcher.matches()) {
            throw trouble.apply("column " + (column + 1) + " is '" + CsvReader.shortened(name)
                    + "'; it must be a role with its unit, such as 'draft.switch [Pa]'");
        }
        String role = matcher.group(1);
        Tap tap;
        try {
            tap = Roles.parse(role);
        } catch (InputException e) {
            throw trouble.apply(String.valueOf(e.getMessage()));
        }
        String symbol = matcher.group(2);
        Unit unit = Unit.ofSymbol(symbol)
                .orElseThrow(() ->
                        trouble.apply("'" + CsvReader.shortened(symbol) + "' is not a unit; known: " + Unit.symbols()));
        if (unit.quantity() != tap.quantity()) {
            throw trouble.apply(role + " cannot be in " + symbol);
        }
        return new Channel(tap, source, role, unit);
    }

    /** The name of a channel's column. */
    static String columnName(Channel channel) {
        return channel.tap().role() + " [" + channel.unit().symbol() + "]";
    }

    List<Channel> channels() {
        return channels;
    }

    boolean hasInstants() {
        return instants;
    }

    /** When second 0 was, if the table tells. */
    @Nullable
    Instant start() {
        return start;
    }

    /** What the session is called, if the table tells; else empty. */
    String title() {
        return "";
    }

    /** The setup's text, if the table tells it; else empty. */
    String setupToml() {
        return "";
    }

    /** An error in the present line. */
    abstract InputException error(String problem);

    /** An error in a cell of the present line; column 0 is the time. */
    abstract InputException cellError(int column, String problem);

    /** How much of the file was read, 0 to 1. */
    abstract double fraction();

    /**
     * Reads the next line.
     *
     * @return false at the end
     * @throws InputException naming file, line and column, if the line is not as the header says
     */
    abstract boolean next() throws IOException, InputException;

    @Override
    public abstract void close() throws IOException;

    /** Notes that a channel has a reading in this line, whose time is set. */
    final void follow(int channel) throws InputException {
        if (timeNanos <= lastNanos[channel]) {
            throw cellError(channel + 1, "its time does not follow that of the reading before; sort the table by time");
        }
        lastNanos[channel] = timeNanos;
    }

    /** Sets the line's time: {@code count / 10^decimals} seconds. */
    final void time(long seconds, int secondsDecimals) throws InputException {
        timeDecimals = secondsDecimals;
        try {
            timeNanos = Math.multiplyExact(seconds, NANOS[secondsDecimals]);
        } catch (ArithmeticException e) {
            throw tooFar();
        }
        if (Math.abs((double) timeNanos) > 0x1p62) {
            throw tooFar();
        }
    }

    /** Sets when second 0 was, before the first line. */
    final void startsAt(@Nullable Instant given) {
        start = given;
    }

    /** Sets the line's time, from the start that was given, else from the first such time. */
    final void time(Instant at, int secondsDecimals) throws InputException {
        timeDecimals = secondsDecimals;
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

    private InputException tooFar() {
        return cellError(0, "the time is more than 146 years from the start");
    }

    static long nanosOfDecimals(int decimals) {
        return NANOS[decimals];
    }
}
