package draftwitness.driver;

import draftwitness.reading.Quantity;
import draftwitness.reading.Unit;
import java.math.BigDecimal;
import java.util.Optional;
import java.util.Set;
import org.jspecify.annotations.Nullable;

/**
 * The Characteristic Presentation Format descriptor (0x2904): how a Bluetooth device says by itself what its numbers
 * mean. Immutable.
 *
 * <pre>
 * 0  format       1 byte    4 uint8, 6 uint16, 8 uint32, 12 int8, 14 int16, 15 int24, 16 int32, ...
 * 1  exponent     1 byte    signed power of ten
 * 2  unit         2 bytes   little endian, Bluetooth assigned numbers
 * 4  namespace    1 byte
 * 5  description  2 bytes   little endian
 * </pre>
 *
 * @param text whether the value is UTF-8 text; then {@code type} does not matter
 * @param exponent of ten
 * @param unit of the value after scaling, or null if the descriptor names none
 * @param milli whether the value must be multiplied by 1000 too, since the unit is bar and ours is mbar
 */
record PresentationFormat(
        NumberType type,
        boolean text,
        int exponent,
        @Nullable Unit unit,
        boolean milli) {
    private static final int LENGTH = 7;
    private static final int UNITLESS = 0x2700;

    /** Reads the descriptor; empty if it is too short, or its format or unit is not one that we can read. */
    static Optional<PresentationFormat> read(byte[] bytes) {
        if (bytes.length < LENGTH) {
            return Optional.empty();
        }
        int format = bytes[0] & 0xFF;
        NumberType type = type(format);
        int exponent = bytes[1];
        int code = (int) WordOrder.LITTLE.bits(bytes, 2, 2);
        Unit unit = unit(code);
        if (type == null || Math.abs(exponent) > 12 || (unit == null && code != UNITLESS)) {
            return Optional.empty();
        }
        return Optional.of(new PresentationFormat(type, format == 25, exponent, unit, code == 0x2780));
    }

    private static @Nullable NumberType type(int format) {
        return switch (format) {
            case 1, 4, 25 -> NumberType.UINT8;
            case 6 -> NumberType.UINT16;
            case 7 -> NumberType.UINT24;
            case 8 -> NumberType.UINT32;
            case 12 -> NumberType.INT8;
            case 14 -> NumberType.INT16;
            case 15 -> NumberType.INT24;
            case 16 -> NumberType.INT32;
            case 18 -> NumberType.INT64;
            case 20 -> NumberType.FLOAT32;
            case 21 -> NumberType.FLOAT64;
            case 22 -> NumberType.SFLOAT16;
            case 23 -> NumberType.SFLOAT32;
            default -> null; // 64-bit unsigned, structures and the rest
        };
    }

    /** There is no Bluetooth unit for the inch of water; 0x2728 is volt, not a pressure. */
    private static @Nullable Unit unit(int code) {
        return switch (code) {
            case 0x2724 -> Unit.PASCAL;
            case 0x2780 -> Unit.MILLIBAR;
            case 0x27A5 -> Unit.POUND_PER_SQUARE_INCH;
            case 0x2728 -> Unit.VOLT;
            case 0x272F -> Unit.CELSIUS;
            default -> null;
        };
    }

    /** Whether it may carry a reading of that quantity. */
    boolean suits(Quantity quantity) {
        return unit == null || unit.quantity() == quantity;
    }

    /**
     * How its numbers are read.
     *
     * @param declared the unit to take where the descriptor names none
     * @param signed read unsigned formats with a sign
     */
    NumberField field(Unit declared, boolean signed) {
        BigDecimal scale = BigDecimal.ONE.scaleByPowerOfTen(exponent + (milli ? 3 : 0));
        Scaling scaling =
                new Scaling(scale, BigDecimal.ZERO, NumberField.floatDecimals(unit == null ? declared : unit), false);
        return new NumberField(
                signed ? type.signed() : type,
                WordOrder.LITTLE,
                -1,
                scaling,
                Set.of(),
                Set.of(),
                -Double.MAX_VALUE,
                Double.MAX_VALUE);
    }
}
