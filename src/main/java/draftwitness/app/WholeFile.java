package draftwitness.app;

import java.io.BufferedOutputStream;
import java.io.IOException;
import java.io.OutputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;

/** Writes small files so that whoever reads one finds the old or the new, and never half of it. Any thread. */
public final class WholeFile {
    private WholeFile() {}

    /** What is in a file. */
    public interface Content {
        /** Writes it; the stream is closed by whoever gave it. */
        void write(OutputStream to) throws IOException;
    }

    /**
     * Writes beside the file, then puts it in place of whatever has its name.
     *
     * @throws IOException if that fails; the old file is then as it was, and nothing is left beside it
     */
    public static void write(Path file, Content content) throws IOException {
        Path part = file.resolveSibling(file.getFileName() + ".part");
        try {
            try (OutputStream to = new BufferedOutputStream(Files.newOutputStream(part))) {
                content.write(to);
            }
            Files.move(part, file, StandardCopyOption.ATOMIC_MOVE, StandardCopyOption.REPLACE_EXISTING);
        } finally {
            Files.deleteIfExists(part);
        }
    }

    /** The same for a text, in UTF-8. */
    public static void write(Path file, String text) throws IOException {
        write(file, to -> to.write(text.getBytes(StandardCharsets.UTF_8)));
    }
}
