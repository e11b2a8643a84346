package draftwitness.driver;

import draftwitness.reading.Decimal;
import draftwitness.reading.Quantity;
import draftwitness.reading.Unit;
import java.util.Locale;
import java.util.Optional;

/**
 * A unit as an instrument writes it: one of ours, or a power of ten of one of ours, so that values stay exact decimals.
 * Immutable.
 *
 * @param unit ours
 * @param power of ten by which a value must be multiplied to be in it, 0 or more
 */
record WrittenUnit(Unit unit, int power) {

    /** The unit that the text means; empty if unknown, never a guess. */
    static Optional<WrittenUnit> of(String text) {
        // our own symbols first, so that inH2O_60F is not taken for another inch
        Optional<Unit> exact = Unit.ofSymbol(text).or(() -> Unit.ofInstrumentText(text));
        if (exact.isPresent()) {
            return exact.map(u -> new WrittenUnit(u, 0));
        }
        return switch (text.replace(" ", "").toLowerCase(Locale.ROOT)) {
            case "bar" -> Optional.of(new WrittenUnit(Unit.MILLIBAR, 3));
            case "cmh2o", "cmwc" -> Optional.of(new WrittenUnit(Unit.MILLIMETRE_OF_WATER, 1));
            default -> Optional.empty();
        };
    }

    Quantity quantity() {
        return unit.quantity();
    }

    /** A value as written, in {@link #unit()}; empty if it does not fit. */
    Optional<Decimal> value(Decimal written) {
        if (written.decimals() >= power) {
            return Optional.of(new Decimal(written.count(), written.decimals() - power));
        }
        try {
            long count = written.count();
            for (int i = written.decimals(); i < power; i++) {
                count = Math.multiplyExact(count, 10L);
            }
            return Optional.of(new Decimal(count, 0));
        } catch (ArithmeticException e) {
            return Optional.empty(); // an expected outcome of outside data
        }
    }
}
