package draftwitness.link.ble;

import static org.assertj.core.api.Assertions.assertThat;

import draftwitness.testkit.Peers;
import java.io.BufferedReader;
import java.io.File;
import java.io.IOException;
import java.io.InputStream;
import java.io.InputStreamReader;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.util.List;
import java.util.concurrent.TimeUnit;

/**
 * A real D-Bus daemon of the test's own, and on it a program in Python that behaves like BlueZ and does what it is told
 * (its commands: peers/fake_bluez.py).
 */
final class FakeBlueZ implements AutoCloseable {
    private static final String PYTHON = "/usr/bin/python3"; // the system's own, which has the D-Bus modules

    private final Path folder;
    private final Process daemon;
    private final String address;
    private Process bluez;
    private BufferedReader answers;

    FakeBlueZ(Path folder) throws IOException {
        this.folder = folder;
        needPeers();
        Path config = folder.resolve("bus.conf");
        address = "unix:path=" + folder.resolve("bus");
        Files.writeString(config, """
                <!DOCTYPE busconfig PUBLIC "-//freedesktop//DTD D-Bus Bus Configuration 1.0//EN"
                 "http://www.freedesktop.org/standards/dbus/1.0/busconfig.dtd">
                <busconfig>
                  <listen>%s</listen>
                  <auth>EXTERNAL</auth>
                  <policy context="default">
                    <allow send_destination="*" eavesdrop="true"/>
                    <allow eavesdrop="true"/>
                    <allow own="*"/>
                  </policy>
                </busconfig>
                """.formatted(address));
        daemon = new ProcessBuilder("dbus-daemon", "--config-file=" + config, "--nofork", "--print-address")
                .redirectError(folder.resolve("bus.log").toFile())
                .start();
        assertThat(daemon.inputReader().readLine()).startsWith("unix:path=");
        startBlueZ();
    }

    private static void needPeers() throws IOException {
        Peers.needProgram("dbus-daemon");
        Peers.need(new File(PYTHON).canExecute(), PYTHON + " is not installed");
        Process modules = new ProcessBuilder(PYTHON, "-c", "import dbus, gi.repository.GLib")
                .redirectErrorStream(true)
                .start();
        modules.getInputStream().readAllBytes();
        Peers.need(waitFor(modules) == 0, "python3-dbus and python3-gi are not installed");
    }

    private static int waitFor(Process process) {
        try {
            return process.waitFor();
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
            return -1;
        }
    }

    /** Starts BlueZ, again if it was stopped; it comes up without any adapter. */
    void startBlueZ() throws IOException {
        Path script = folder.resolve("fake_bluez.py");
        try (InputStream in = FakeBlueZ.class.getResourceAsStream("/peers/fake_bluez.py")) {
            Files.copy(in, script, StandardCopyOption.REPLACE_EXISTING);
        }
        ProcessBuilder builder = new ProcessBuilder(PYTHON, "-u", script.toString())
                .redirectError(folder.resolve("bluez.log").toFile());
        builder.environment().put("DBUS_SYSTEM_BUS_ADDRESS", address);
        bluez = builder.start();
        answers = new BufferedReader(new InputStreamReader(bluez.getInputStream(), StandardCharsets.UTF_8));
        assertThat(answers.readLine()).as(log()).isEqualTo("ok org.bluez");
    }

    private String log() throws IOException {
        return Files.readString(folder.resolve("bluez.log"));
    }

    void stopBlueZ() {
        bluez.destroyForcibly();
        waitFor(bluez);
    }

    /** Where the bus is. */
    String address() {
        return address;
    }

    /** Tells it, waits until it is done, and gives what it answers after "ok". */
    String tell(String command) {
        try {
            bluez.getOutputStream().write((command + "\n").getBytes(StandardCharsets.UTF_8));
            bluez.getOutputStream().flush();
            String answer = answers.readLine();
            assertThat(answer).as(log()).startsWith("ok");
            return answer.substring(2).strip();
        } catch (IOException e) {
            throw new UncheckedIOException(command, e);
        }
    }

    /** Tells it several things. */
    void tellAll(List<String> commands) {
        commands.forEach(this::tell);
    }

    @Override
    public void close() {
        for (Process process : List.of(bluez, daemon)) {
            process.destroy();
            try {
                if (!process.waitFor(5, TimeUnit.SECONDS)) {
                    process.destroyForcibly();
                }
            } catch (InterruptedException e) {
                Thread.currentThread().interrupt();
                process.destroyForcibly();
            }
        }
    }
}
