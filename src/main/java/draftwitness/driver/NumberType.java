package draftwitness.driver;

import java.util.Locale;

/** How a number is coded in bytes. */
enum NumberType {
    INT8(1),
    INT16(2),
    INT24(3),
    INT32(4),
    INT64(8),
    UINT8(1),
    UINT16(2),
    UINT24(3),
    UINT32(4),
    /** IEEE 754 single. */
    FLOAT32(4),
    /** IEEE 754 double. */
    FLOAT64(8),
    /** IEEE 11073-20601 16-bit: 4-bit exponent of ten, 12-bit mantissa. */
    SFLOAT16(2),
    /** IEEE 11073-20601 32-bit: 8-bit exponent of ten, 24-bit mantissa. */
    SFLOAT32(4);

    private final int bytes;

    NumberType(int bytes) {
        this.bytes = bytes;
    }

    int bytes() {
        return bytes;
    }

    boolean isWhole() {
        return name().contains("INT");
    }

    private boolean isSigned() {
        return name().startsWith("INT");
    }

    /** The whole number that these bits stand for; for whole types only. */
    long whole(long bits) {
        int unused = 64 - 8 * bytes;
        return isSigned() ? (bits << unused) >> unused : bits;
    }

    /** The same type read with a sign: for instruments that put two's complement where the standard has none. */
    NumberType signed() {
        return switch (this) {
            case UINT8 -> INT8;
            case UINT16 -> INT16;
            case UINT24 -> INT24;
            case UINT32 -> INT32;
            default -> this;
        };
    }

    /** As written in a description. */
    String word() {
        return name().toLowerCase(Locale.ROOT);
    }
}
