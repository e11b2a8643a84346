package draftwitness.bridge;

/** A broker or follower cannot be reached, or refuses; the message is one line for people. */
public final class BridgeException extends Exception {
    private static final long serialVersionUID = 1;

    BridgeException(String message, Throwable cause) {
        super(message, cause);
    }

    BridgeException(String message) {
        super(message);
    }
}
