package draftwitness.driver;

/**
 * A cyclic redundancy check by the parameters of the RevEng catalogue of parametrised CRC algorithms. Immutable.
 *
 * <p>How it works: one table step a byte, in a register kept at its own width; when the input is reflected the register
 * runs mirrored, so that no bit is ever turned around in the loop.
 */
final class Crc {
    private final int width;
    private final boolean reflectIn;
    private final boolean reflectOut;
    private final long xorOut;
    private final long start;
    private final long[] table = new long[256];

    /**
     * @param width 8 to 32 bits
     * @param poly polynomial without its highest term, not reflected
     * @param init register at the start, not reflected
     * @param reflectIn whether bytes enter lowest bit first
     * @param reflectOut whether the register leaves mirrored
     * @param xorOut applied at the end
     */
    Crc(int width, long poly, long init, boolean reflectIn, boolean reflectOut, long xorOut) {
        if (width < 8 || width > 32) {
            throw new IllegalArgumentException("a CRC of " + width + " bits is outside 8..32");
        }
        this.width = width;
        this.reflectIn = reflectIn;
        this.reflectOut = reflectOut;
        this.xorOut = xorOut & mask();
        this.start = reflectIn ? mirrored(init, width) : init & mask();
        fill(poly);
    }

    /** Bits of the check. */
    int width() {
        return width;
    }

    private long mask() {
        return (1L << width) - 1;
    }

    private void fill(long poly) {
        long mirroredPoly = mirrored(poly, width);
        long top = 1L << (width - 1);
        for (int i = 0; i < 256; i++) {
            long register = reflectIn ? i : (long) i << (width - 8);
            for (int bit = 0; bit < 8; bit++) {
                if (reflectIn) {
                    register = (register >>> 1) ^ ((register & 1) != 0 ? mirroredPoly : 0);
                } else {
                    register = (register << 1) ^ ((register & top) != 0 ? poly : 0);
                }
            }
            table[i] = register & mask();
        }
    }

    private static long mirrored(long value, int width) {
        return Long.reverse(value) >>> (64 - width);
    }

    /** The check of bytes {@code from} (inclusive) to {@code to} (exclusive), in the low {@code width} bits. */
    long of(byte[] bytes, int from, int to) {
        long register = start;
        for (int i = from; i < to; i++) {
            if (reflectIn) {
                register = (register >>> 8) ^ table[(int) (register ^ bytes[i]) & 0xFF];
            } else {
                register = ((register << 8) ^ table[(int) ((register >>> (width - 8)) ^ bytes[i]) & 0xFF]) & mask();
            }
        }
        return (reflectIn == reflectOut ? register : mirrored(register, width)) ^ xorOut;
    }

    /** CRC-16/MODBUS. */
    static Crc modbus() {
        return new Crc(16, 0x8005, 0xFFFF, true, true, 0);
    }
}
