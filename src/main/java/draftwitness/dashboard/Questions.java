package draftwitness.dashboard;

import java.nio.file.Path;
import java.util.Optional;

/** What only the person at the screen can answer. Called on the user-interface thread; waits for the answer. */
public interface Questions {

    /** Which recording to open; empty when they changed their mind. */
    Optional<Path> recordingToOpen();

    /**
     * Where to write a file; empty when they changed their mind. Whether to replace one that is there was asked.
     *
     * @param suggestion a name for it
     */
    Optional<Path> fileToWrite(String suggestion);

    /** A recording is running: whether to finish it first and then go on with what was asked for. */
    boolean finishRecording();
}
