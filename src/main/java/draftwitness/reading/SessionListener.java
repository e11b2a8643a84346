package draftwitness.reading;

/**
 * Receives a session, live or replayed. Called by one thread: {@code begin}, then slices in order, then {@code end}.
 * Must return quickly; whoever has slow work to do queues it.
 */
public interface SessionListener {

    /**
     * Whether it gets readings as the instruments wrote them, such as a recording; others get them with the
     * {@link Zeros} of the session taken off.
     */
    default boolean takesRaw() {
        return false;
    }

    /** The session starts. */
    void begin(SessionHeader header);

    /** The next slice. */
    void slice(Slice slice);

    /** Nothing follows. */
    void end();
}
