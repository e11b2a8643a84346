package draftwitness.recording;

import java.util.Arrays;

/**
 * Grows an array of bytes from whole bytes, variable-length numbers and single bits, most significant bit first. One
 * owner thread.
 */
final class BitWriter {
    private byte[] bytes = new byte[256];
    private int size;
    private long pending;
    private int pendingBits;

    /** Appends the low {@code count} bits of a value, highest first; {@code count} is 0 to 56. */
    void bits(long value, int count) {
        pending = (pending << count) | (value & ((1L << count) - 1));
        pendingBits += count;
        while (pendingBits >= 8) {
            pendingBits -= 8;
            put((byte) (pending >>> pendingBits));
        }
    }

    /** Fills the last byte with zero bits. */
    void align() {
        if (pendingBits > 0) {
            put((byte) (pending << (8 - pendingBits)));
            pendingBits = 0;
        }
    }

    /** Appends an unsigned number, 7 bits a byte, lowest first, the top bit set while more follow. */
    void varint(long value) {
        long rest = value;
        while ((rest & ~0x7FL) != 0) {
            put((byte) (rest | 0x80));
            rest >>>= 7;
        }
        put((byte) rest);
    }

    /** Appends a signed number so that small magnitudes stay short. */
    void signed(long value) {
        varint(zigzag(value));
    }

    void bytes(byte[] source, int length) {
        room(length);
        System.arraycopy(source, 0, bytes, size, length);
        size += length;
    }

    private void put(byte b) {
        room(1);
        bytes[size++] = b;
    }

    private void room(int more) {
        if (size + more > bytes.length) {
            bytes = Arrays.copyOf(bytes, Math.max(size + more, 2 * bytes.length));
        }
    }

    int size() {
        return size;
    }

    /** The bytes so far, not copied; valid up to {@link #size()}. */
    byte[] buffer() {
        return bytes;
    }

    byte[] toArray() {
        return Arrays.copyOf(bytes, size);
    }

    void clear() {
        size = 0;
        pending = 0;
        pendingBits = 0;
    }

    /** 0, -1, 1, -2 ... become 0, 1, 2, 3 ... */
    static long zigzag(long value) {
        return (value << 1) ^ (value >> 63);
    }

    static long unzigzag(long coded) {
        return (coded >>> 1) ^ -(coded & 1);
    }
}
