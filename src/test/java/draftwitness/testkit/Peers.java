package draftwitness.testkit;

import java.awt.GraphicsEnvironment;
import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.Assumptions;

/** Real parts that a test needs: without them it is skipped with a reason, or fails where CI=true promises them. */
public final class Peers {
    private Peers() {}

    /** True where every peer must be there. */
    public static boolean required() {
        return "true".equals(System.getenv("CI"));
    }

    /** Goes on if the peer is there; else skips with the reason, or fails under CI=true. */
    public static void need(boolean there, String reason) {
        if (!there && required()) {
            throw new AssertionError("CI=true, and yet: " + reason);
        }
        Assumptions.assumeTrue(there, reason);
    }

    /** Pseudo-terminals as Linux has them. */
    public static void needPty() {
        need(System.getProperty("os.name", "").startsWith("Linux"), "pseudo-terminals are opened the Linux way");
    }

    /** A display to open windows on. */
    public static void needDisplay() {
        need(!GraphicsEnvironment.isHeadless(), "no display; run under a virtual one, such as Xvfb");
    }

    /** A program on the PATH. */
    public static void needProgram(String name) {
        for (String folder : System.getenv("PATH").split(":", -1)) {
            if (Files.isExecutable(Path.of(folder, name))) {
                return;
            }
        }
        need(false, name + " is not installed");
    }
}
