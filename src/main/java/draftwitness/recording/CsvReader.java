package draftwitness.recording;

import draftwitness.input.InputException;
import draftwitness.reading.Decimal;
import draftwitness.reading.Step;
import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.regex.Pattern;

/**
 * Reads a table of numbers line by line from bytes. CRLF and LF, a byte order mark, quotes around a whole cell, blanks
 * around a number and blank lines at the end are taken; anything else is refused with file, line and column.
 *
 * <p>Numbers are read in place, without making strings; only unusual ones (exponents, more than 18 digits) take the
 * longer way. One owner thread.
 */
final class CsvReader {
    private static final int BUFFER = 1 << 18;
    private static final int LONGEST_LINE = 1 << 16;
    private static final Pattern DECIMAL_COMMA = Pattern.compile("[-+]?\\d{0,20},\\d{1,20}");
    private static final Pattern CONTROL = Pattern.compile("[\\p{Cntrl}\\u0080-\\u009F\\u2028\\u2029]");

    private final String file;
    private final InputStream in;
    private byte[] buffer = new byte[BUFFER];
    private int position;
    private int limit;
    private boolean exhausted;
    private long consumed;
    private long line;
    private int lineEnd;
    private int cell;
    private List<String> columns = List.of();

    /** The number that {@link #number()} read last: {@code count / 10^decimals}. */
    long count;

    int decimals;

    CsvReader(String file, InputStream in) {
        this.file = file;
        this.in = in;
    }

    /** Bytes read so far, for progress. */
    long consumed() {
        return consumed + position;
    }

    long line() {
        return line;
    }

    /** An error in the present line: one line of text, whatever stands in the table. */
    InputException error(String problem) {
        return new InputException(
                file + ":" + line + ": " + CONTROL.matcher(problem).replaceAll("\uFFFD"));
    }

    /** An error in the cell that was read last, or is due. */
    InputException cellError(int column, String problem) {
        String name = column < columns.size() ? columns.get(column) : "number " + (column + 1);
        return error("column " + name + ": " + problem);
    }

    /** Reads the header line: the names of the columns. */
    List<String> header() throws IOException, InputException {
        if (!nextLine()) {
            line = 1;
            throw error("the table is empty; its first line must name the columns");
        }
        if (startsWith(0xEF, 0xBB, 0xBF)) {
            position += 3;
        }
        refuseOtherKinds();
        List<String> names = new ArrayList<>();
        do {
            names.add(cellText());
        } while (anotherCell());
        refuseOtherSeparators(names.get(0));
        columns = List.copyOf(names);
        return columns;
    }

    private boolean startsWith(int... bytes) {
        for (int i = 0; i < bytes.length; i++) {
            if (position + i >= lineEnd || (buffer[position + i] & 0xFF) != bytes[i]) {
                return false;
            }
        }
        return true;
    }

    /** What a spreadsheet program may have saved instead of plain text. */
    private void refuseOtherKinds() throws InputException {
        if (startsWith(0xFF, 0xFE) || startsWith(0xFE, 0xFF)) {
            throw error("the table is text in UTF-16; save it as CSV in UTF-8");
        }
        if (startsWith('P', 'K', 3, 4)) {
            throw error("this is an archive or a spreadsheet's own file, not text; save the table as CSV");
        }
    }

    private void refuseOtherSeparators(String first) throws InputException {
        if (first.startsWith("sep=")) {
            throw error("the line 'sep=' is a note to spreadsheet programs; remove it, so that the first line names the"
                    + " columns, and separate the cells by commas");
        }
        for (String[] separator : new String[][] {{";", "semicolons"}, {"\t", "tabs"}}) {
            if (first.contains(separator[0])) {
                throw error("the columns are separated by " + separator[1]
                        + "; save the table with commas between the cells and points in the numbers (0.5, not 0,5)");
            }
        }
    }

    /**
     * Goes to the next line that is not blank.
     *
     * @return false at the end
     */
    boolean nextLine() throws IOException, InputException {
        long blank = 0;
        while (true) {
            if (!fetchLine()) {
                return false;
            }
            if (lineEnd > position) {
                break;
            }
            blank = blank == 0 ? line : blank;
        }
        if (blank != 0) {
            line = blank;
            throw error("a blank line amid the table; remove it");
        }
        cell = 0;
        return true;
    }

    /** Finds the end of the line that starts after the present one. */
    private boolean fetchLine() throws IOException, InputException {
        position = line == 0 ? position : nextStart;
        line++;
        int scan = position;
        while (true) {
            while (scan < limit && buffer[scan] != '\n') {
                scan++;
            }
            if (scan < limit) {
                lineEnd = scan > position && buffer[scan - 1] == '\r' ? scan - 1 : scan;
                nextStart = scan + 1;
                return true;
            }
            int scanned = scan - position;
            if (exhausted) {
                lineEnd = limit > position && buffer[limit - 1] == '\r' ? limit - 1 : limit;
                nextStart = limit;
                return scanned > 0;
            }
            if (scanned > LONGEST_LINE) {
                throw error("the line is longer than " + LONGEST_LINE + " bytes; this is not a table of readings");
            }
            refill();
            scan = position + scanned;
        }
    }

    private int nextStart;

    private void refill() throws IOException {
        consumed += position;
        System.arraycopy(buffer, position, buffer, 0, limit - position);
        limit -= position;
        position = 0;
        int got = in.read(buffer, limit, buffer.length - limit);
        if (got < 0) {
            exhausted = true;
        } else {
            limit += got;
        }
    }

    /** True, and goes there, if the line has another cell after the one just read. */
    boolean anotherCell() {
        if (position < lineEnd && buffer[position] == ',') {
            position++;
            cell++;
            return true;
        }
        return false;
    }

    /** Position of the cell in its line, from 0. */
    int cell() {
        return cell;
    }

    /** The text of the due cell, without quotes around it and blanks around that. */
    String cellText() throws InputException {
        int from = position;
        int end = position;
        boolean quoted = false;
        while (end < lineEnd && (quoted || buffer[end] != ',')) {
            quoted ^= buffer[end] == '"';
            end++;
        }
        position = end;
        String text = new String(buffer, from, end - from, StandardCharsets.UTF_8).strip();
        if (quoted) {
            throw cellError(cell, "the quote has no end");
        }
        if (text.length() >= 2 && text.startsWith("\"") && text.endsWith("\"")) {
            text = text.substring(1, text.length() - 1).strip();
        }
        if (text.indexOf('"') >= 0) {
            throw cellError(cell, "a quote within the cell; quotes may only stand around all of it");
        }
        return text;
    }

    /**
     * Reads the due cell as a number into {@link #count} and {@link #decimals}.
     *
     * @return false if the cell is empty
     * @throws InputException if it is neither empty nor a number
     */
    boolean number() throws InputException {
        int at = position;
        boolean negative = at < lineEnd && buffer[at] == '-';
        at += negative ? 1 : 0;
        int first = at;
        long value = 0;
        int point = -1;
        for (; at < lineEnd; at++) {
            int digit = buffer[at] - '0';
            if (digit >= 0 && digit <= 9) {
                value = value * 10 + digit;
            } else if (buffer[at] == '.' && point < 0) {
                point = at;
            } else {
                break;
            }
        }
        int digits = at - first - (point < 0 ? 0 : 1);
        int after = point < 0 ? 0 : at - point - 1;
        if (digits > 0 && digits <= 18 && after <= Step.MAX_DECIMALS && (at == lineEnd || buffer[at] == ',')) {
            position = at;
            count = negative ? -value : value;
            decimals = after;
            return true;
        }
        return unusualNumber();
    }

    private boolean unusualNumber() throws InputException {
        String text = cellText();
        if (text.isEmpty()) {
            return false;
        }
        Optional<Decimal> number = Decimal.parse(text);
        if (number.isEmpty()) {
            throw cellError(cell, "'" + shortened(text) + "' " + trouble(text));
        }
        count = number.get().count();
        decimals = number.get().decimals();
        return true;
    }

    private static String trouble(String text) {
        if (DECIMAL_COMMA.matcher(text).matches()) {
            return "has a decimal comma; write the numbers with points, such as " + text.replace(',', '.');
        }
        return text.indexOf(';') >= 0
                ? "is not a number; separate the cells by commas, not by semicolons"
                : "is not a number";
    }

    static String shortened(String text) {
        return text.length() <= 40 ? text : text.substring(0, 40) + "...";
    }
}
