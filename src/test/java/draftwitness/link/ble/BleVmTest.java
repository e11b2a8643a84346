package draftwitness.link.ble;

import static org.assertj.core.api.Assertions.assertThat;

import draftwitness.testkit.Peers;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.TimeUnit;
import org.junit.jupiter.api.Assumptions;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;

/**
 * The links against the real BlueZ, in a virtual machine with emulated controllers: found, connected, 10 notifications
 * a second for 60 s without loss, the sensor disappears and returns; then the same in a whole recorded session. Takes
 * about two minutes, so it runs only with CI=true or {@code -Dble.vm=true}.
 */
class BleVmTest {
    @Test
    @Timeout(value = 360, unit = TimeUnit.SECONDS)
    void givenRealBlueZ_whenSensorSendsForAMinuteLeavesAndReturns_thenNothingIsLostAndItIsBack() throws Exception {
        Assumptions.assumeTrue(Peers.required() || Boolean.getBoolean("ble.vm"), "set -Dble.vm=true; takes 2 minutes");
        Peers.needProgram("qemu-system-x86_64");
        Peers.needProgram("dbus-daemon");
        String classes = System.getProperty("surefire.test.class.path", System.getProperty("java.class.path"));
        List<String> words = new ArrayList<>(List.of("src/test/ble-lab/run-in-ble-vm", "-t", "280", "--"));
        words.add(Path.of(System.getProperty("java.home"), "bin", "java").toString());
        // A small JVM starts fastest on one emulated processor.
        words.addAll(List.of("-XX:TieredStopAtLevel=1", "-XX:+UseSerialGC", "-Xmx128m"));
        words.addAll(List.of("-cp", classes, BleInVm.class.getName()));
        Process machine = new ProcessBuilder(words).redirectErrorStream(true).start();
        String said = new String(machine.getInputStream().readAllBytes(), StandardCharsets.UTF_8);
        assertThat(machine.waitFor()).as(said).isZero();
        assertThat(said).containsPattern("central steady \\d+ values, 0 lost");
        assertThat(said).containsPattern("central gone ble:.*(disconnected|does not answer)");
        assertThat(said).containsPattern("central returned 20 values, 0 lost");
        assertThat(said).containsPattern("central recorded \\d+ of \\d+, [01] jumps, 1 gone");
    }
}
