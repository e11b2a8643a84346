package draftwitness.app.cli;

import draftwitness.input.InputException;
import draftwitness.recording.RecordingException;
import draftwitness.recording.RecordingWriter;
import java.nio.file.Path;

/** Which exit code a recording's trouble means. */
final class RecordingErrors {
    private RecordingErrors() {}

    /**
     * For commands that read a recording: a file that is not there, not one of ours or too new is unreadable input; a
     * damaged one means that the work failed.
     */
    static Exception whenReading(RecordingException e) {
        return switch (e.kind()) {
            case UNREADABLE, FOREIGN, NEWER -> new InputException(String.valueOf(e.getMessage()), e);
            case TARGET, DISK_FULL, UNWRITABLE, DAMAGED -> new WorkFailedException(String.valueOf(e.getMessage()), e);
        };
    }

    /** For commands that write one: an unusable target is wrong usage, everything else means that the work failed. */
    static Exception whenWriting(RecordingException e) {
        return switch (e.kind()) {
            case TARGET -> new InputException(String.valueOf(e.getMessage()), e);
            case UNREADABLE, FOREIGN, NEWER, DISK_FULL, UNWRITABLE, DAMAGED ->
                new WorkFailedException(String.valueOf(e.getMessage()), e);
        };
    }

    /** Refuses a target that no recording can be made at, before anything is opened for it. */
    static void checkTarget(Path out) throws InputException {
        try {
            RecordingWriter.checkTarget(out);
        } catch (RecordingException e) {
            throw new InputException(String.valueOf(e.getMessage()), e);
        }
    }
}
