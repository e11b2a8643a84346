package draftwitness.link;

import draftwitness.input.InputException;
import draftwitness.reading.Chunk;
import java.io.IOException;
import java.io.InputStream;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.util.Optional;

/**
 * The bytes of a file as if they came over a serial line of a given speed (10 bits a byte), 10 ms of them at a time.
 */
final class FileFeed implements Feed {
    private static final long CHUNK_NANOS = 10_000_000;
    private static final double BITS_A_BYTE = 10;

    private final String name;
    private final InputStream in;
    private final double bytesPerSecond;
    private long sent;

    private FileFeed(String name, InputStream in, int baud) {
        this.name = name;
        this.in = in;
        this.bytesPerSecond = baud / BITS_A_BYTE;
    }

    static void check(LinkAddress address) throws InputException {
        int unused = address.options().integer("baud", 9600, 50, 4_000_000);
        if (!Files.isReadable(Path.of(address.target())) || Files.isDirectory(Path.of(address.target()))) {
            throw new InputException(address.target() + ": no such file, or not one that can be read");
        }
    }

    static FileFeed open(LinkAddress address) throws LinkException {
        try {
            int baud = address.options().integer("baud", 9600, 50, 4_000_000);
            Path path = Path.of(address.target());
            if (Files.isDirectory(path)) {
                throw new LinkException(address.target() + ": is a folder");
            }
            return new FileFeed(address.target(), Files.newInputStream(path), baud);
        } catch (InputException e) {
            throw new LinkException(String.valueOf(e.getMessage()), e);
        } catch (NoSuchFileException e) {
            throw new LinkException(address.target() + ": no such file", e);
        } catch (IOException e) {
            throw new LinkException(address.target() + ": cannot be read (" + e.getMessage() + ")", e);
        }
    }

    @Override
    public Optional<Chunk> next() throws LinkException {
        int size = Math.max(1, (int) (bytesPerSecond * CHUNK_NANOS / 1e9));
        try {
            byte[] bytes = in.readNBytes(size);
            if (bytes.length == 0) {
                return Optional.empty();
            }
            sent += bytes.length;
            return Optional.of(new Chunk(bytes, 0, bytes.length, Math.round(sent / bytesPerSecond * 1e9)));
        } catch (IOException e) {
            throw new LinkException(name + ": cannot be read further (" + e.getMessage() + ")", e);
        }
    }

    @Override
    public void close() {
        try {
            in.close();
        } catch (IOException e) {
            // Opened for reading only: nothing can be lost.
            return;
        }
    }
}
