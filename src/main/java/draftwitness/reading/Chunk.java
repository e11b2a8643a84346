package draftwitness.reading;

import java.util.Arrays;

/**
 * Bytes as they arrived from an instrument in one go. Immutable; the bytes of a message may be spread over several
 * chunks.
 */
public final class Chunk {
    private final byte[] bytes;
    private final long arrivalNanos;
    private final String endpoint;

    /**
     * Copies {@code length} bytes.
     *
     * @param arrivalNanos when they arrived, on the session's ticker
     */
    public Chunk(byte[] buffer, int offset, int length, long arrivalNanos) {
        this(buffer, offset, length, arrivalNanos, "");
    }

    /**
     * Copies {@code length} bytes.
     *
     * @param arrivalNanos when they arrived, on the session's ticker
     * @param endpoint which part of the instrument sent them, for links that tell (a characteristic's UUID, a control
     *     line); empty for plain byte streams
     */
    public Chunk(byte[] buffer, int offset, int length, long arrivalNanos, String endpoint) {
        this.bytes = Arrays.copyOfRange(buffer, offset, offset + length);
        this.arrivalNanos = arrivalNanos;
        this.endpoint = endpoint;
    }

    public int size() {
        return bytes.length;
    }

    /** Byte {@code i}, 0 to 255. */
    public int at(int i) {
        return bytes[i] & 0xFF;
    }

    /** A copy of the bytes. */
    public byte[] toArray() {
        return bytes.clone();
    }

    public long arrivalNanos() {
        return arrivalNanos;
    }

    public String endpoint() {
        return endpoint;
    }
}
