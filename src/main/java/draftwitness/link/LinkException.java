package draftwitness.link;

/** A link could not be opened, or failed. The message is one line that names the device and what to do. */
public final class LinkException extends Exception {
    public LinkException(String message) {
        super(message);
    }

    public LinkException(String message, Throwable cause) {
        super(message, cause);
    }
}
