package draftwitness.reading;

/** How a source is doing. */
public enum SourceState {
    /** Being opened for the first time. */
    OPENING,
    /** Bytes are arriving. */
    LIVE,
    /** Open, but nothing has arrived for a while. */
    SILENT,
    /** Unplugged, closed by the other side, or failed; retries follow. */
    GONE,
    /** Waiting before the next attempt to open it again. */
    RETRYING,
    /** Came to its end in good order (a file, a simulation). */
    FINISHED;

    /** True while readings cannot be expected: a contact's last state no longer holds. */
    public boolean interrupts() {
        return this == GONE || this == RETRYING;
    }
}
