package draftwitness.recording;

import java.lang.invoke.MethodHandles;
import java.lang.invoke.VarHandle;
import java.nio.ByteOrder;
import java.util.Arrays;

/**
 * Reads what {@link BitWriter} wrote. Reading beyond the end throws {@link IndexOutOfBoundsException} or gives zero
 * bits; callers check {@link #ended()}. One owner thread.
 */
final class BitReader {
    private static final VarHandle LONGS = MethodHandles.byteArrayViewVarHandle(long[].class, ByteOrder.BIG_ENDIAN);
    private static final VarHandle INTS = MethodHandles.byteArrayViewVarHandle(int[].class, ByteOrder.BIG_ENDIAN);
    private static final int PADDING = 16;

    private final byte[] bytes;
    private final int size;
    private int bitPosition;

    BitReader(byte[] source) {
        size = source.length;
        bytes = Arrays.copyOf(source, size + PADDING);
    }

    /** Eight bytes at a position, highest byte first. */
    long longAt(int position) {
        return (long) LONGS.get(bytes, position);
    }

    /** Four bytes at a position, highest byte first. */
    int intAt(int position) {
        return (int) INTS.get(bytes, position);
    }

    /** The next 57 or more bits, left-justified, without going on. */
    long window() {
        return ((long) LONGS.get(bytes, bitPosition >>> 3)) << (bitPosition & 7);
    }

    void skip(int bits) {
        bitPosition += bits;
    }

    /** The next {@code count} bits, 1 to 56. */
    long bits(int count) {
        long value = window() >>> (64 - count);
        bitPosition += count;
        return value;
    }

    /** Goes to the next whole byte. */
    void align() {
        bitPosition = (bitPosition + 7) & ~7;
    }

    long varint() {
        long value = 0;
        for (int shift = 0; shift < 70; shift += 7) {
            long b = bits(8);
            value |= (b & 0x7F) << shift;
            if (b < 0x80) {
                return value;
            }
        }
        throw new IndexOutOfBoundsException("number without end");
    }

    /** An unsigned number that has to lie within bounds. */
    int varint(int min, int max) {
        long value = varint();
        if (value < min || value > max) {
            throw new IndexOutOfBoundsException(value + " is outside " + min + " to " + max);
        }
        return (int) value;
    }

    long signed() {
        return BitWriter.unzigzag(varint());
    }

    /** Position in whole bytes; only when aligned. */
    int bytePosition() {
        return bitPosition >>> 3;
    }

    void seekByte(int position) {
        if (position < 0 || position > size) {
            throw new IndexOutOfBoundsException(position);
        }
        bitPosition = position << 3;
    }

    /** True when no byte is left, false when more follow. */
    boolean ended() {
        return (bitPosition + 7) >>> 3 >= size;
    }

    /** True when more was read than there was. */
    boolean overrun() {
        return bitPosition > (size << 3);
    }
}
