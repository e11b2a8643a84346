package draftwitness.testkit;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.concurrent.TimeUnit;

/** Two pseudo-terminals joined by socat, another program than ours: what goes in at one end comes out at the other. */
public final class Cable implements AutoCloseable {
    private final Process socat;
    private final Path near;
    private final Path far;

    /** Makes the pair under two names in a folder, and waits until both are there. */
    public Cable(Path folder) throws IOException, InterruptedException {
        Peers.needPty();
        Peers.needProgram("socat");
        near = folder.resolve("near");
        far = folder.resolve("far");
        socat = new ProcessBuilder("socat", "pty,raw,echo=0,link=" + near, "pty,raw,echo=0,link=" + far)
                .redirectErrorStream(true)
                .redirectOutput(ProcessBuilder.Redirect.DISCARD)
                .start();
        for (int look = 0; look < 200 && !(Files.exists(near) && Files.exists(far)); look++) {
            if (socat.waitFor(50, TimeUnit.MILLISECONDS)) {
                throw new IOException("socat ended with " + socat.exitValue());
            }
        }
    }

    public Path near() {
        return near;
    }

    public Path far() {
        return far;
    }

    @Override
    public void close() {
        socat.destroy();
    }
}
