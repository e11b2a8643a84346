package draftwitness.link;

import draftwitness.reading.Chunk;
import java.util.Optional;

/** An open link to an instrument. One thread reads; {@link #write} and {@link #close} may come from others. */
public interface ByteLink extends AutoCloseable {

    /**
     * Waits for the next bytes.
     *
     * @return at least one byte, stamped on arrival; empty when the link came to its end in good order
     * @throws LinkException if the device is gone or the link was closed
     */
    Optional<Chunk> read() throws LinkException;

    /**
     * Sends bytes to the instrument.
     *
     * @throws LinkException if not all of them went out
     */
    void write(byte[] bytes) throws LinkException;

    /**
     * True if the bytes carry times of their own and come from their very beginning, as from a file or a simulation:
     * the first ones begin a message, and chunks come in order of time.
     */
    default boolean isPaced() {
        return false;
    }

    /**
     * Where to look for this very device when it comes back, if there is a better place than where it was opened: its
     * number may be another one then, and another device may have taken its own.
     */
    default Optional<LinkAddress> returnAddress() {
        return Optional.empty();
    }

    /** Closes the link and ends a waiting {@link #read}. Does nothing the second time. */
    @Override
    void close();
}
