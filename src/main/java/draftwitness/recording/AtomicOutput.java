package draftwitness.recording;

import draftwitness.recording.RecordingException.Kind;
import java.io.IOException;
import java.nio.channels.FileChannel;
import java.nio.file.AtomicMoveNotSupportedException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.nio.file.StandardOpenOption;
import java.util.UUID;

/**
 * A file that appears under its name only when it is complete: written beside it under a passing name, forced to the
 * disk, then renamed. One owner thread.
 */
final class AtomicOutput implements AutoCloseable {
    private final Path target;
    private final Path passing;
    private boolean done;

    private AtomicOutput(Path target, Path passing) {
        this.target = target;
        this.passing = passing;
    }

    /**
     * Chooses a passing name in the target's folder; no file is left there yet.
     *
     * @throws RecordingException if the folder does not exist or cannot be written
     */
    static AtomicOutput beside(Path target) throws RecordingException {
        Path folder = target.toAbsolutePath().getParent();
        Path name = target.getFileName();
        if (folder == null || name == null || !Files.isDirectory(folder)) {
            throw new RecordingException(Kind.TARGET, target, "the folder does not exist; create it first");
        }
        if (Files.isDirectory(target)) {
            throw new RecordingException(Kind.TARGET, target, "is a folder; name a file");
        }
        try {
            // Not a temporary file of the system's: those are for their maker's eyes only, and this one will stay.
            Path passing = Files.createFile(folder.resolve("." + name + "." + UUID.randomUUID() + ".part"));
            return new AtomicOutput(target, passing);
        } catch (IOException e) {
            throw new RecordingException(
                    Kind.TARGET, target, "the folder may not be written (" + e.getMessage() + "); choose another", e);
        }
    }

    /** Where to write; exists and is empty. */
    Path passing() {
        return passing;
    }

    /**
     * Puts the complete file in place of whatever has its name.
     *
     * @throws RecordingException if that fails; the old file is then as it was
     */
    void finish() throws RecordingException {
        try (FileChannel channel = FileChannel.open(passing, StandardOpenOption.WRITE)) {
            channel.force(true);
        } catch (IOException e) {
            throw writing(target, e);
        }
        try {
            move();
            done = true;
        } catch (IOException e) {
            throw writing(target, e);
        }
    }

    private void move() throws IOException {
        try {
            Files.move(passing, target, StandardCopyOption.ATOMIC_MOVE);
        } catch (AtomicMoveNotSupportedException e) {
            Files.move(passing, target, StandardCopyOption.REPLACE_EXISTING);
        }
    }

    /** Removes the passing file unless it was finished. */
    @Override
    public void close() {
        if (done) {
            return;
        }
        for (String suffix : new String[] {"", "-journal", "-wal", "-shm"}) {
            try {
                Files.deleteIfExists(Database.beside(passing, suffix));
            } catch (IOException e) {
                passing.toFile().deleteOnExit();
            }
        }
    }

    /** What a failure to write a plain file means. */
    static RecordingException writing(Path file, IOException e) {
        String reason = String.valueOf(e.getMessage());
        if (reason.contains("No space left") || reason.contains("not enough space")) {
            return new RecordingException(Kind.DISK_FULL, file, "the disk is full; free some room and try again", e);
        }
        return new RecordingException(
                Kind.UNWRITABLE, file, "cannot be written (" + reason + "); check the disk and permissions", e);
    }
}
