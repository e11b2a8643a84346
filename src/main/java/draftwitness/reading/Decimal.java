package draftwitness.reading;

import java.math.BigDecimal;
import java.math.RoundingMode;
import java.util.Optional;

/**
 * A number as an instrument or a table wrote it: {@code count / 10^decimals}. Trailing zeros count, since they say how
 * finely the instrument reads: {@code 1.50} has two decimals.
 *
 * @param count whole counts
 * @param decimals digits after the point, 0 to {@link Step#MAX_DECIMALS}
 */
public record Decimal(long count, int decimals) {

    public Decimal {
        if (decimals < 0 || decimals > Step.MAX_DECIMALS) {
            throw new IllegalArgumentException(decimals + " decimals are outside 0.." + Step.MAX_DECIMALS);
        }
    }

    /** Longest text taken for a number. */
    private static final int MAX_TEXT = 64;

    /**
     * Reads a decimal number: optional sign, digits with an optional point, optional exponent. Nothing around it. More
     * than {@link Step#MAX_DECIMALS} decimals are rounded half to even. Empty if the text is anything else, is longer
     * than 64 characters, or the count does not fit into 63 bits; never a guess.
     */
    public static Optional<Decimal> parse(CharSequence text) {
        int n = text.length();
        if (n == 0 || n > MAX_TEXT) {
            return Optional.empty();
        }
        int i = 0;
        char c = text.charAt(0);
        boolean negative = c == '-';
        if (negative || c == '+') {
            i++;
        }
        long count = 0;
        int digits = 0;
        int decimals = -1;
        for (; i < n; i++) {
            c = text.charAt(i);
            if (c >= '0' && c <= '9') {
                if (digits == 18) {
                    return parseLong(text.toString()); // might not fit: the slow, exact way
                }
                count = count * 10 + (c - '0');
                digits += count == 0 ? 0 : 1;
                decimals += decimals >= 0 ? 1 : 0;
            } else if (c == '.' && decimals < 0) {
                decimals = 0;
            } else {
                return parseLong(text.toString());
            }
        }
        if (decimals > Step.MAX_DECIMALS || !hasDigit(text)) {
            return parseLong(text.toString());
        }
        return Optional.of(new Decimal(negative ? -count : count, Math.max(decimals, 0)));
    }

    private static boolean hasDigit(CharSequence text) {
        for (int i = 0; i < text.length(); i++) {
            if (text.charAt(i) >= '0' && text.charAt(i) <= '9') {
                return true;
            }
        }
        return false;
    }

    private static Optional<Decimal> parseLong(String text) {
        for (int i = 0; i < text.length(); i++) {
            if ("+-.0123456789eE".indexOf(text.charAt(i)) < 0) {
                return Optional.empty(); // BigDecimal takes other scripts' digits too
            }
        }
        try {
            BigDecimal value = new BigDecimal(text);
            if (value.precision() - (long) value.scale() > 19 || value.scale() > 2 * MAX_TEXT) {
                return Optional.empty(); // and no huge expansion for 1e999999999
            }
            int decimals = Math.max(0, Math.min(value.scale(), Step.MAX_DECIMALS));
            return Optional.of(new Decimal(
                    value.setScale(decimals, RoundingMode.HALF_EVEN)
                            .movePointRight(decimals)
                            .longValueExact(),
                    decimals));
        } catch (ArithmeticException | NumberFormatException e) {
            return Optional.empty();
        }
    }

    /** Writes a count with its decimals: {@code format(-150, 2)} is {@code -1.50}. */
    public static void append(StringBuilder out, long count, int decimals) {
        if (decimals == 0) {
            out.append(count);
            return;
        }
        String digits = Long.toString(count);
        int start = count < 0 ? 1 : 0;
        if (count < 0) {
            out.append('-');
        }
        int whole = digits.length() - start - decimals;
        if (whole <= 0) {
            out.append("0.");
            out.append("0".repeat(-whole));
            out.append(digits, start, digits.length());
        } else {
            out.append(digits, start, start + whole).append('.').append(digits, start + whole, digits.length());
        }
    }

    @Override
    public String toString() {
        StringBuilder out = new StringBuilder();
        append(out, count, decimals);
        return out.toString();
    }
}
