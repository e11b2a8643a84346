package draftwitness.driver;

import draftwitness.input.InputException;
import draftwitness.input.TomlTableReader;
import draftwitness.reading.Decimal;
import draftwitness.reading.Quantity;
import draftwitness.reading.Step;
import draftwitness.reading.Unit;
import java.math.BigDecimal;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;

/**
 * One number in a binary message and what it means. Immutable.
 *
 * @param type its coding
 * @param order its bytes' order
 * @param bit the bit that is meant, from 0 for the lowest, or -1 for the whole number
 * @param scaling to the declared unit
 * @param noValue raw whole numbers by which the instrument says that it has no value
 * @param overRange raw whole numbers by which it says that it is beyond its range
 * @param min smallest value that the instrument can mean, in its unit
 * @param max largest such value
 */
record NumberField(
        NumberType type,
        WordOrder order,
        int bit,
        Scaling scaling,
        Set<Long> noValue,
        Set<Long> overRange,
        double min,
        double max) {

    /** Reads {@code type order bit scale offset decimals no-value over-range min max} of a {@code [[reading]]}. */
    static NumberField read(TomlTableReader table, ReadingSpec spec, NumberType byDefault, WordOrder orderByDefault)
            throws InputException {
        NumberType type = ReadingTables.choice(table, "type", byDefault);
        WordOrder order = ReadingTables.choice(table, "order", orderByDefault);
        if (order.needsWords() && type.bytes() % 2 != 0 && type.bytes() > 1) {
            throw table.error("order", "swapped words need a type of an even number of bytes");
        }
        int bit = (int) table.integer("bit", -1, -1, 8L * type.bytes() - 1);
        if (bit >= 0 && !type.isWhole()) {
            throw table.error("bit", "only whole numbers have bits");
        }
        double min = table.number("min", -Double.MAX_VALUE, -Double.MAX_VALUE, Double.MAX_VALUE);
        double max = table.number("max", Double.MAX_VALUE, -Double.MAX_VALUE, Double.MAX_VALUE);
        return new NumberField(
                type,
                order,
                bit,
                scaling(table, spec.unit()),
                raws(table, "no-value"),
                raws(table, "over-range"),
                min,
                max);
    }

    /** The same, read with a sign. */
    NumberField signed() {
        return new NumberField(type.signed(), order, bit, scaling, noValue, overRange, min, max);
    }

    /** The same with another bit. */
    NumberField atBit(int other) {
        return new NumberField(type, order, other, scaling, noValue, overRange, min, max);
    }

    private static Scaling scaling(TomlTableReader table, Unit unit) throws InputException {
        BigDecimal scale = BigDecimal.valueOf(table.number("scale", 1, -1e12, 1e12));
        BigDecimal offset = BigDecimal.valueOf(table.number("offset", 0, -1e12, 1e12));
        if (scale.signum() == 0) {
            throw table.error("scale", "must not be 0");
        }
        int usual = Math.min(Step.MAX_DECIMALS, floatDecimals(unit));
        int decimals = (int) table.integer("decimals", usual, 0, Step.MAX_DECIMALS);
        return new Scaling(scale, offset, decimals, table.has("decimals"));
    }

    /** Decimals that a binary fraction is rounded to: about a thousandth of a pascal or its like. */
    static int floatDecimals(Unit unit) {
        return unit.quantity() == Quantity.CONTACT ? 0 : unit.usualDecimals() + 2;
    }

    private static Set<Long> raws(TomlTableReader table, String key) throws InputException {
        List<Double> numbers = table.numbers(key);
        return numbers.stream().map(Double::longValue).collect(Collectors.toUnmodifiableSet());
    }

    /**
     * Reads the number and stages it.
     *
     * @param bytes holds the whole of it from {@code at} on
     * @return why the message is damaged, or null
     */
    @Nullable
    Fault stage(int index, ReadingSpec spec, Unit unit, byte[] bytes, int at, Staged staged) {
        long bits = order.bits(bytes, at, type.bytes());
        if (type.isWhole()) {
            long raw = type.whole(bits);
            if (isOneOf(noValue, raw, bits) || isOneOf(overRange, raw, bits)) {
                staged.missing(isOneOf(noValue, raw, bits) ? Fault.NO_VALUE : Fault.OVER_RANGE);
                return null;
            }
            return stage(index, spec, unit, scaling.whole(bit < 0 ? raw : (raw >> bit) & 1), staged);
        }
        Fault missing = missing(bits);
        if (missing != null) {
            staged.missing(missing);
            return null;
        }
        return stage(index, spec, unit, fraction(bits), staged);
    }

    /** Manuals give such numbers signed or as the bits they are. */
    private static boolean isOneOf(Set<Long> numbers, long raw, long bits) {
        return numbers.contains(raw) || numbers.contains(bits);
    }

    private @Nullable Fault missing(long bits) {
        return switch (type) {
            case FLOAT32 -> missing((double) Float.intBitsToFloat((int) bits));
            case FLOAT64 -> missing(Double.longBitsToDouble(bits));
            case SFLOAT16 -> MedicalFloat.missing16((int) bits);
            case SFLOAT32 -> MedicalFloat.missing32((int) bits);
            default -> null;
        };
    }

    private static @Nullable Fault missing(double value) {
        if (Double.isNaN(value)) {
            return Fault.NO_VALUE;
        }
        return Double.isInfinite(value) ? Fault.OVER_RANGE : null;
    }

    private Optional<Decimal> fraction(long bits) {
        return switch (type) {
            case FLOAT32 -> scaling.rounded(Float.intBitsToFloat((int) bits));
            case FLOAT64 -> scaling.rounded(Double.longBitsToDouble(bits));
            case SFLOAT16 -> scaling.exact(MedicalFloat.mantissa16((int) bits), MedicalFloat.exponent16((int) bits));
            default -> scaling.exact(MedicalFloat.mantissa32((int) bits), MedicalFloat.exponent32((int) bits));
        };
    }

    private @Nullable Fault stage(int index, ReadingSpec spec, Unit unit, Optional<Decimal> value, Staged staged) {
        if (value.isEmpty()) {
            return Fault.NOT_A_READING;
        }
        if (spec.unit().quantity() == Quantity.CONTACT && !TextReading.isContact(value.get())) {
            return Fault.NOT_A_READING;
        }
        double size = new Step(unit, value.get().decimals()).inUnit(value.get().count());
        if (size < min || size > max) {
            staged.missing(Fault.OVER_RANGE);
            return null;
        }
        staged.add(index, value.get(), unit);
        return null;
    }
}
