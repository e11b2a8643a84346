package draftwitness.link;

import java.io.IOException;
import java.nio.file.DirectoryStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Optional;

/**
 * Finds the name by which a serial port stays known when it is unplugged and comes back under another number: a
 * symbolic link that the system keeps for each adapter, named after its maker's serial number. Any thread; asks the
 * system each time.
 *
 * @param folder where such links are
 */
record StableNames(Path folder) {
    /** Linux with udev: {@code /dev/serial/by-id}. Elsewhere the folder is missing, and no name is found. */
    static final StableNames SYSTEM = new StableNames(Path.of("/dev/serial/by-id"));

    /** The stable name of the device that a path leads to; empty if it has none, or the path is one already. */
    Optional<Path> of(String path) {
        Path given = Path.of(path);
        if (Files.isSymbolicLink(given)) {
            return Optional.empty(); // somebody chose a name that may be pointed elsewhere
        }
        try (DirectoryStream<Path> links = Files.newDirectoryStream(folder)) {
            Path device = given.toRealPath();
            for (Path link : links) {
                if (Files.exists(link) && link.toRealPath().equals(device)) {
                    return Optional.of(link);
                }
            }
        } catch (IOException e) {
            return Optional.empty(); // no such folder, or the port is gone meanwhile
        }
        return Optional.empty();
    }
}
