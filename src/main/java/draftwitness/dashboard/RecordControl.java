package draftwitness.dashboard;

import java.nio.file.Path;
import org.jspecify.annotations.Nullable;

/**
 * Recording the session on screen; the program behind the window fills this in. All methods are called on the
 * user-interface thread and return at once: what comes of a command shows in {@link #status()}.
 */
public interface RecordControl {

    /** Where recording stands. */
    enum State {
        /** This session cannot be recorded (a recording is being looked at). */
        UNAVAILABLE,
        IDLE,
        STARTING,
        RECORDING,
        /** Finishing the file: everything handed over is being written. */
        STOPPING,
        /** Ended by a failure; what was written by then is kept. */
        FAILED;

        /** True while closing the window must wait for the file. */
        public boolean busy() {
            return this == STARTING || this == RECORDING || this == STOPPING;
        }
    }

    /**
     * How recording goes.
     *
     * @param state where it stands
     * @param file the file, or null before the first
     * @param elapsedNanos recorded session time
     * @param bytes size of the file so far
     * @param trouble what went wrong and what to do, one line; empty when all is well
     */
    record Status(State state, @Nullable Path file, long elapsedNanos, long bytes, String trouble) {
        /** Nothing recorded, nothing wrong. */
        public static Status idle() {
            return new Status(State.IDLE, null, 0, 0, "");
        }
    }

    /** A good new file for a recording that starts now; does not exist yet. */
    Path suggestedFile();

    /** Starts recording into a new file. */
    void start(Path file);

    /** Finishes the recording: writes everything that has arrived, then closes the file. */
    void stop();

    /** The present status; cheap. */
    Status status();
}
