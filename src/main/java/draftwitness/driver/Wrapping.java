package draftwitness.driver;

/** How binary messages are packed so that one byte value only ever stands between them. */
enum Wrapping {
    NONE(-1) {
        @Override
        int unwrap(byte[] wire, int length, byte[] out) {
            System.arraycopy(wire, 0, out, 0, length);
            return length;
        }
    },
    /** RFC 1055: END 0xC0 between packets; within one, 0xDB 0xDC stands for 0xC0 and 0xDB 0xDD for 0xDB. */
    SLIP(0xC0) {
        @Override
        int unwrap(byte[] wire, int length, byte[] out) {
            int n = 0;
            for (int i = 0; i < length; i++) {
                if ((wire[i] & 0xFF) != 0xDB) {
                    out[n++] = wire[i];
                    continue;
                }
                int escaped = ++i < length ? wire[i] & 0xFF : -1;
                if (escaped != 0xDC && escaped != 0xDD) {
                    return -1;
                }
                out[n++] = (byte) (escaped == 0xDC ? 0xC0 : 0xDB);
            }
            return n;
        }
    },
    /**
     * Consistent overhead byte stuffing (Cheshire and Baker, IEEE/ACM Transactions on Networking 7(2), 1999): zero
     * between messages; each code byte tells how far it is to the next zero that was taken out.
     */
    COBS(0x00) {
        @Override
        int unwrap(byte[] wire, int length, byte[] out) {
            int n = 0;
            int i = 0;
            while (i < length) {
                int code = wire[i++] & 0xFF;
                if (code == 0 || i + code - 1 > length) {
                    return -1;
                }
                for (int k = 1; k < code; k++) {
                    if (wire[i] == 0) {
                        return -1;
                    }
                    out[n++] = wire[i++];
                }
                if (code < 0xFF && i < length) {
                    out[n++] = 0;
                }
            }
            return n;
        }
    };

    private final int delimiter;

    Wrapping(int delimiter) {
        this.delimiter = delimiter;
    }

    /** The byte between messages, or -1. */
    int delimiter() {
        return delimiter;
    }

    /**
     * Unpacks {@code length} bytes without delimiters.
     *
     * @param out at least as long
     * @return how many bytes came out, or -1 if the packing is wrong
     */
    abstract int unwrap(byte[] wire, int length, byte[] out);
}
