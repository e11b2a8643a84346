package draftwitness.dashboard;

import java.nio.file.Path;
import java.util.Optional;

/** What only the person at the screen can answer. Called on the user-interface thread; waits for the answer. */
public interface Questions {

    /** Which recording to open; empty when they changed their mind. */
    Optional<Path> recordingToOpen();

    /** A recording is running: whether to finish it first and then go on with what was asked for. */
    boolean finishRecording();
}
