package draftwitness.recording;

/** One way to write many small unsigned numbers in few bits. Stateless; any thread. */
interface IntegerCoder {

    /** Appends the first {@code n} numbers, which are unsigned 64-bit and mostly small. */
    void encode(BitWriter out, long[] numbers, int n);

    /**
     * Reads {@code n} numbers back into the start of {@code numbers}.
     *
     * @throws IndexOutOfBoundsException if the bytes cannot have come from {@link #encode}
     */
    void decode(BitReader in, long[] numbers, int n);
}
