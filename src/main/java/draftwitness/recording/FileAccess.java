package draftwitness.recording;

import java.nio.file.Files;
import java.nio.file.Path;
import org.jspecify.annotations.Nullable;

/**
 * Read access to one recording. A finished file stays open; a file that is being recorded is opened for each piece of
 * work anew, so that its writer can finish it into one file at any moment. Any thread, one at a time.
 */
final class FileAccess implements AutoCloseable {

    /** Some reading from the database. */
    interface Work<T> {
        T on(Database database) throws RecordingException;
    }

    private final Path file;
    private @Nullable Database held;
    private boolean closed;

    FileAccess(Path file) {
        this.file = file;
    }

    Path file() {
        return file;
    }

    /** True when the file's log lies beside it: it is being recorded, or was cut off. */
    private boolean hasLog() {
        return Files.exists(Database.beside(file, "-wal"));
    }

    synchronized <T> T with(Work<T> work) throws RecordingException {
        if (closed) {
            throw new IllegalStateException(file + " was closed");
        }
        Database open = held;
        if (open != null) {
            return work.on(open);
        }
        Database database = Database.forReading(file);
        boolean hold = !hasLog();
        try {
            T result = work.on(database);
            held = hold ? database : null;
            return result;
        } finally {
            if (held == null) {
                database.close();
            }
        }
    }

    @Override
    public synchronized void close() throws RecordingException {
        closed = true;
        Database open = held;
        held = null;
        if (open != null) {
            open.close();
        }
    }
}
