package draftwitness.recording;

import java.nio.file.Path;
import org.jspecify.annotations.Nullable;

/** A recording cannot be written or read. The message is one line: the file, what happened, what to do. */
public final class RecordingException extends Exception {

    /** What kind of trouble it is. */
    public enum Kind {
        /** The file to write is already there, or its folder cannot take it. */
        TARGET,
        /** No room left where the file is written. */
        DISK_FULL,
        /** Writing failed in another way. */
        UNWRITABLE,
        /** There is no such file, or the system refuses to read it. */
        UNREADABLE,
        /** The file is something else than a recording. */
        FOREIGN,
        /** The recording was made by a newer version of the program. */
        NEWER,
        /** The recording is damaged. */
        DAMAGED
    }

    private final Kind kind;
    private final Path file;

    RecordingException(Kind kind, Path file, String what, @Nullable Throwable cause) {
        super(file + ": " + what, cause);
        this.kind = kind;
        this.file = file;
    }

    RecordingException(Kind kind, Path file, String what) {
        this(kind, file, what, null);
    }

    public Kind kind() {
        return kind;
    }

    /** The file that the trouble is with. */
    public Path file() {
        return file;
    }
}
