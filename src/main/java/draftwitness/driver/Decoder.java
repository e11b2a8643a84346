package draftwitness.driver;

import draftwitness.reading.Chunk;
import java.util.Optional;

/**
 * Makes readings out of one instrument's bytes. Keeps the unfinished rest of a message between chunks.
 *
 * <p>One owner thread (capture). Every byte given is accounted for: it becomes part of a message, is reported as
 * skipped with a named {@link Fault}, or is held for the next chunk within a fixed ceiling. No input makes it throw,
 * hang or invent a reading.
 */
public interface Decoder {

    /** Takes the next bytes and hands on what they complete. */
    void decode(Chunk chunk, DecodeSink sink);

    /**
     * The link was opened or opened again: what was held is dropped, and what comes next may begin in the middle of a
     * message, whose rest must not be taken for a whole one.
     */
    void restart(long nowNanos);

    /**
     * As {@link #restart}, when it is certain that what comes next begins a message: the start of a file, or the first
     * bytes after a silence much longer than any pause within a message. Nothing needs to be skipped then.
     */
    default void restartInStep(long nowNanos) {
        restart(nowNanos);
    }

    /** Bytes held at present, waiting for the rest of a message. */
    int held();

    /**
     * For instruments that must be asked: the bytes to send now, if any is due. Called by the owner thread again and
     * again.
     *
     * @param nowNanos the session's ticker
     */
    default Optional<byte[]> due(long nowNanos, DecodeSink sink) {
        return Optional.empty();
    }

    /** When {@link #due} wants to be called next, on the session's ticker; {@link Long#MAX_VALUE} for never. */
    default long nextDueNanos() {
        return Long.MAX_VALUE;
    }
}
