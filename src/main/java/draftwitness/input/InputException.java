package draftwitness.input;

/**
 * Something that a person typed or a file that they named cannot be used. The message is one line, ready to show:
 * where, what, and what would do.
 */
public final class InputException extends Exception {
    public InputException(String message) {
        super(message);
    }

    public InputException(String message, Throwable cause) {
        super(message, cause);
    }
}
