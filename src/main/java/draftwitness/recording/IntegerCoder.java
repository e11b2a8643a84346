package draftwitness.recording;

/** One way to write many small unsigned numbers in few bits. Stateless; any thread. */
interface IntegerCoder {

    /** Rough length of the first {@code n} numbers, in bits: for choosing between two ways of telling the same. */
    static double roughBits(long[] numbers, int n) {
        double bits = 0;
        for (int i = 0; i < n; i++) {
            bits += 64 - Long.numberOfLeadingZeros(numbers[i]);
        }
        return bits;
    }

    /**
     * By how much each number after the first is further from the one before than usual, made unsigned.
     *
     * @param to gets {@code n - 1} numbers
     */
    static void differences(long[] numbers, int n, long usual, long[] to) {
        for (int i = 1; i < n; i++) {
            to[i - 1] = BitWriter.zigzag(numbers[i] - numbers[i - 1] - usual);
        }
    }

    /** Appends the first {@code n} numbers, which are unsigned 64-bit and mostly small. */
    void encode(BitWriter out, long[] numbers, int n);

    /**
     * Reads {@code n} numbers back into the start of {@code numbers}.
     *
     * @throws IndexOutOfBoundsException if the bytes cannot have come from {@link #encode}
     */
    void decode(BitReader in, long[] numbers, int n);
}
