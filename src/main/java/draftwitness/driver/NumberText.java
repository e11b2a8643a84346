package draftwitness.driver;

import draftwitness.reading.Decimal;
import java.util.Optional;
import org.jspecify.annotations.Nullable;

/**
 * One number with an optional unit after it, as an instrument prints it. Immutable.
 *
 * <p>Values beyond 9.8E37 are not numbers but words: 9.91E37 is "not a number", 9.9E37 and -9.9E37 are infinities
 * (SCPI-1999, volume 1, section 7.2.1; section number from memory).
 *
 * @param value the number, or null if it stands for a fault
 * @param fault why there is no number, or null
 * @param unit the text after the number, stripped; empty if none
 */
record NumberText(@Nullable Decimal value, @Nullable Fault fault, String unit) {
    private static final double SPECIAL = 9.8e37;
    private static final double NOT_A_NUMBER = 9.91e37;

    /**
     * Reads sign, digits with a decimal mark, exponent and unit. Blanks around and after the sign do not matter.
     *
     * @param mark the decimal mark, point or comma; the other one is not part of a number
     */
    static NumberText parse(CharSequence cell, char mark) {
        int n = cell.length();
        StringBuilder number = new StringBuilder(24);
        int i = skipBlanks(cell, 0);
        if (i < n && (cell.charAt(i) == '-' || cell.charAt(i) == '+')) {
            number.append(cell.charAt(i));
            i = skipBlanks(cell, i + 1);
        }
        int start = i;
        while (i < n && (isDigit(cell.charAt(i)) || cell.charAt(i) == mark)) {
            number.append(cell.charAt(i) == mark ? '.' : cell.charAt(i));
            i++;
        }
        int exponent = i == start ? i : exponentEnd(cell, i);
        number.append(cell, i, exponent);
        String unit = cell.subSequence(exponent, n).toString().strip();
        Optional<Decimal> value = Decimal.parse(number);
        return value.isPresent()
                ? new NumberText(value.get(), null, unit)
                : new NumberText(null, special(number.toString()), unit);
    }

    private static int skipBlanks(CharSequence cell, int from) {
        int i = from;
        while (i < cell.length() && (cell.charAt(i) == ' ' || cell.charAt(i) == '\t')) {
            i++;
        }
        return i;
    }

    private static boolean isDigit(char c) {
        return c >= '0' && c <= '9';
    }

    /** End of {@code E+12} and its like at {@code from}, or {@code from} if there is none. */
    private static int exponentEnd(CharSequence cell, int from) {
        int i = from;
        if (i >= cell.length() || (cell.charAt(i) != 'e' && cell.charAt(i) != 'E')) {
            return from;
        }
        i++;
        if (i < cell.length() && (cell.charAt(i) == '-' || cell.charAt(i) == '+')) {
            i++;
        }
        int digits = i;
        while (i < cell.length() && isDigit(cell.charAt(i))) {
            i++;
        }
        return i == digits ? from : i;
    }

    private static Fault special(String number) {
        try {
            double value = Double.parseDouble(number);
            if (Math.abs(value) < SPECIAL || Double.isInfinite(value)) {
                return Fault.NOT_A_READING;
            }
            return Math.abs(value - NOT_A_NUMBER) < 1e34 ? Fault.NO_VALUE : Fault.OVER_RANGE;
        } catch (NumberFormatException e) {
            return Fault.NOT_A_READING; // an expected outcome of outside data
        }
    }
}
