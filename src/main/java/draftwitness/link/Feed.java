package draftwitness.link;

import draftwitness.reading.Chunk;
import java.util.Optional;

/** Bytes with times of their own, from a file or a simulation, that a {@link PacedLink} plays. One owner thread. */
public interface Feed extends AutoCloseable {

    /**
     * The next bytes; {@link Chunk#arrivalNanos()} is the session time at which they are due.
     *
     * @return empty at the end
     * @throws LinkException if the source of the bytes fails
     */
    Optional<Chunk> next() throws LinkException;

    /** Releases what the feed holds. */
    @Override
    default void close() {}
}
