package draftwitness.recording;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assumptions.assumeThat;

import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.concurrent.TimeUnit;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/**
 * The n-th write, force, removal and change of length fails, once and from then on, for n = 1, 2, 3 ... until the work
 * completes: while recording, while repairing, while a note is written. A small library, compiled here, stands between
 * SQLite and the system.
 */
class FailingDiskTest {
    @TempDir
    Path folder;

    @Test
    void givenADiskThatFailsAnywhere_whenRecordingRepairingOrNoting_thenNothingSafeIsLostAndNothingIsInvented()
            throws Exception {
        Path library = compiled();
        Path control = Files.write(folder.resolve("control"), new byte[40]);
        Path files = Files.createDirectory(folder.resolve("files"));
        ProcessBuilder child = new ProcessBuilder(
                Path.of(System.getProperty("java.home"), "bin", "java").toString(),
                "-Xmx192m",
                "-XX:+UseSerialGC",
                "-cp",
                System.getProperty("java.class.path"),
                FaultChild.class.getName(),
                files.toString(),
                control.toString());
        child.environment().put("LD_PRELOAD", library.toString());
        child.environment().put("FAULTS_CONTROL", control.toString());
        List<String> lines = lines(child);
        assertThat(lines).last().as("%s", lines).isEqualTo("end");
        assertThat(lines).hasSize(25);
        assertThat(failures(lines, "record write once")).isGreaterThan(30);
        assertThat(failures(lines, "record force once")).isGreaterThan(15);
        assertThat(failures(lines, "record name once")).isPositive();
        assertThat(failures(lines, "repair write once")).isGreaterThan(10);
        assertThat(failures(lines, "repair force once")).isPositive();
        assertThat(failures(lines, "repair name ever")).isPositive();
        assertThat(failures(lines, "note write once")).isGreaterThan(2);
        assertThat(failures(lines, "note force once")).isPositive();
    }

    private static int failures(List<String> lines, String loop) {
        return lines.stream()
                .filter(l -> l.startsWith(loop + " "))
                .mapToInt(l -> Integer.parseInt(l.substring(loop.length() + 1)))
                .findFirst()
                .orElse(-1);
    }

    private Path compiled() throws Exception {
        Path source = folder.resolve("faults.c");
        try (InputStream in = FailingDiskTest.class.getResourceAsStream("/faults/faults.c")) {
            Files.copy(java.util.Objects.requireNonNull(in), source);
        }
        Path library = folder.resolve("faults.so");
        boolean there = System.getenv().getOrDefault("CI", "").equals("true")
                || (System.getProperty("os.name").equals("Linux") && Files.isExecutable(Path.of("/usr/bin/cc")));
        assumeThat(there).as("Linux with a C compiler").isTrue();
        List<String> said = lines(new ProcessBuilder(
                "cc", "-shared", "-fPIC", "-O1", "-o", library.toString(), source.toString(), "-ldl"));
        assertThat(library).as("%s", said).exists();
        return library;
    }

    private static List<String> lines(ProcessBuilder builder) throws Exception {
        Process process = builder.redirectErrorStream(true).start();
        List<String> lines = new String(process.getInputStream().readAllBytes(), StandardCharsets.UTF_8)
                .lines()
                .toList();
        assertThat(process.waitFor(60, TimeUnit.SECONDS)).isTrue();
        return lines;
    }
}
