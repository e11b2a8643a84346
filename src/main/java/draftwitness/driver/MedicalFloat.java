package draftwitness.driver;

import org.jspecify.annotations.Nullable;

/**
 * Decimal floating-point numbers of IEEE 11073-20601, which Bluetooth calls SFLOAT (16 bits) and FLOAT (32 bits): a
 * mantissa times a power of ten, both two's complement, with five mantissas set aside. Pure.
 */
final class MedicalFloat {
    private MedicalFloat() {}

    static int exponent16(int bits) {
        return (short) bits >> 12;
    }

    static int mantissa16(int bits) {
        return (bits << 20) >> 20;
    }

    static int exponent32(int bits) {
        return bits >> 24;
    }

    static int mantissa32(int bits) {
        return (bits << 8) >> 8;
    }

    /** Why the 16-bit pattern is no number, or null. */
    static @Nullable Fault missing16(int bits) {
        return switch (bits & 0xFFFF) {
            case 0x07FE, 0x0802 -> Fault.OVER_RANGE;
            case 0x07FF, 0x0800, 0x0801 -> Fault.NO_VALUE;
            default -> null;
        };
    }

    /** Why the 32-bit pattern is no number, or null. */
    static @Nullable Fault missing32(int bits) {
        return switch (bits) {
            case 0x007FFFFE, 0x00800002 -> Fault.OVER_RANGE;
            case 0x007FFFFF, 0x00800000, 0x00800001 -> Fault.NO_VALUE;
            default -> null;
        };
    }
}
