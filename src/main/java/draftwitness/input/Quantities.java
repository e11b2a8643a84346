package draftwitness.input;

import draftwitness.reading.Quantity;
import draftwitness.reading.Unit;
import java.util.Locale;

/** Values with units as people write them. Pure. */
public final class Quantities {
    private Quantities() {}

    /**
     * Reads {@code "0.95 inH2O"} and gives the value in the base unit of the quantity (pascal for pressures).
     *
     * @throws InputException if there is no number, no known unit, or a unit of another quantity
     */
    public static double parse(String text, Quantity quantity) throws InputException {
        String bare = text.strip();
        int blank = bare.indexOf(' ');
        String number = blank < 0 ? bare : bare.substring(0, blank);
        String symbol = blank < 0 ? "" : bare.substring(blank + 1).strip();
        double value;
        try {
            value = Double.parseDouble(number);
        } catch (NumberFormatException e) {
            throw new InputException("'" + text + "' is not a number with a unit, such as \"0.95 inH2O\"", e);
        }
        Unit unit = Unit.ofSymbol(symbol)
                .filter(u -> u.quantity() == quantity)
                .orElseThrow(() -> new InputException("'" + text + "' needs a unit of "
                        + quantity.name().toLowerCase(Locale.ROOT) + " after the number; known: " + Unit.symbols()));
        if (Double.isNaN(value) || Double.isInfinite(value)) {
            throw new InputException("'" + text + "' is not a finite number");
        }
        return unit.toBase(value);
    }
}
