package draftwitness.testkit;

import com.sun.jna.Library;
import com.sun.jna.Memory;
import com.sun.jna.Native;
import com.sun.jna.Pointer;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;

/**
 * A real pseudo-terminal: the test holds the instrument's end, the program opens {@link #path()} as a serial port.
 * Linux only.
 */
public final class Pty implements AutoCloseable {
    private static final int O_RDWR = 2;
    private static final int O_NOCTTY = 0x100;
    private static final int POLLIN = 1;
    private static final LibC C = Native.load("c", LibC.class);

    /** The few calls of the C library that make a pseudo-terminal. */
    public interface LibC extends Library {
        int posix_openpt(int flags);

        int grantpt(int fd);

        int unlockpt(int fd);

        int ptsname_r(int fd, byte[] buffer, long length);

        int open(String path, int flags);

        int tcgetattr(int fd, Pointer termios);

        int tcsetattr(int fd, int when, Pointer termios);

        void cfmakeraw(Pointer termios);

        long write(int fd, byte[] bytes, long length);

        long read(int fd, byte[] bytes, long length);

        /** One {@code struct pollfd}: the descriptor, then events in the low and results in the high half of an int. */
        int poll(int[] pollfd, int count, int timeoutMillis);

        int close(int fd);
    }

    private final int master;
    private final Path path;
    private boolean closed;

    public Pty() throws IOException {
        master = check(C.posix_openpt(O_RDWR | O_NOCTTY), "posix_openpt");
        check(C.grantpt(master), "grantpt");
        check(C.unlockpt(master), "unlockpt");
        byte[] name = new byte[128];
        check(C.ptsname_r(master, name, name.length), "ptsname_r");
        int end = 0;
        while (name[end] != 0) {
            end++;
        }
        path = Path.of(new String(name, 0, end, StandardCharsets.US_ASCII));
        // Raw, so that nothing is echoed or translated before the program opens its end.
        Memory termios = new Memory(256);
        check(C.tcgetattr(master, termios), "tcgetattr");
        C.cfmakeraw(termios);
        check(C.tcsetattr(master, 0, termios), "tcsetattr");
    }

    private static int check(int result, String call) throws IOException {
        if (result < 0) {
            throw new IOException(call + " failed");
        }
        return result;
    }

    /** The device path that the program opens. */
    public Path path() {
        return path;
    }

    /** Makes a symbolic link point here, replacing what it pointed to. */
    public void linkAs(Path link) throws IOException {
        Files.deleteIfExists(link);
        Files.createSymbolicLink(link, path);
    }

    /** Sends bytes as the instrument; waits while the other end's buffer is full. */
    public void send(byte[] bytes) throws IOException {
        int sent = 0;
        while (sent < bytes.length) {
            byte[] rest = Arrays.copyOfRange(bytes, sent, bytes.length);
            long n = C.write(master, rest, rest.length);
            if (n < 0) {
                throw new IOException("write to " + path + " failed");
            }
            sent += (int) n;
        }
    }

    public void send(String text) throws IOException {
        send(text.getBytes(StandardCharsets.ISO_8859_1));
    }

    /** What the program has sent so far and was not taken yet; never waits. */
    public byte[] sentByProgram() {
        byte[] buffer = new byte[4096];
        int n = C.poll(new int[] {master, POLLIN}, 1, 0) > 0 ? (int) C.read(master, buffer, buffer.length) : 0;
        return Arrays.copyOf(buffer, Math.max(0, n));
    }

    /** Unplugs the instrument. */
    @Override
    public void close() {
        if (!closed) {
            closed = true;
            C.close(master);
        }
    }
}
