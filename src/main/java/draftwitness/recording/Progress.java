package draftwitness.recording;

/** Follows long work, and may stop it. Called on the thread that does the work. */
public interface Progress {
    /** Nobody looks, nobody stops it. */
    Progress NONE = fraction -> true;

    /**
     * So much is done.
     *
     * @param fraction 0 to 1, never decreasing
     * @return false to stop: the work ends with a {@link java.util.concurrent.CancellationException} and leaves nothing
     *     behind
     */
    boolean goOn(double fraction);
}
