package draftwitness.app.cli;

/** The work of a command failed (exit code 1); the message is one line that says what happened and what to do. */
public final class WorkFailedException extends Exception {
    public WorkFailedException(String message, Throwable cause) {
        super(message, cause);
    }

    public WorkFailedException(String message) {
        super(message);
    }
}
