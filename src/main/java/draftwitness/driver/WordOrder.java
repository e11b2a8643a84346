package draftwitness.driver;

/** How the bytes of one number follow each other; the letters are those of a 32-bit number ABCD, A the highest. */
enum WordOrder {
    /** ABCD. */
    BIG,
    /** DCBA. */
    LITTLE,
    /** CDAB: 16-bit words in swapped order, each highest byte first. */
    BIG_SWAPPED,
    /** BADC: 16-bit words in order, each lowest byte first. */
    LITTLE_SWAPPED;

    /** Whether the order moves 16-bit words, so that only even lengths can have it. */
    boolean needsWords() {
        return this == BIG_SWAPPED || this == LITTLE_SWAPPED;
    }

    /** The number's bits from {@code length} bytes at {@code at}, not extended by its sign. */
    long bits(byte[] bytes, int at, int length) {
        long bits = 0;
        for (int i = 0; i < length; i++) {
            int place = switch (this) {
                case BIG -> i;
                case LITTLE -> length - 1 - i;
                case BIG_SWAPPED -> length < 2 ? i : length - 2 - (i & ~1) + (i & 1);
                case LITTLE_SWAPPED -> length < 2 ? i : i ^ 1;
            };
            bits = (bits << 8) | (bytes[at + place] & 0xFF);
        }
        return bits;
    }
}
