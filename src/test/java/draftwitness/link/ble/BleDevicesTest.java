package draftwitness.link.ble;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.time.Duration;
import java.util.List;
import java.util.OptionalInt;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;

/** The search for devices, over a real D-Bus. */
@Timeout(60)
class BleDevicesTest {
    private static final Duration SHORT = Duration.ofMillis(300);

    @TempDir
    Path folder;

    private FakeBlueZ bluez;

    @BeforeEach
    void start() throws Exception {
        bluez = new FakeBlueZ(folder);
    }

    @AfterEach
    void stop() {
        if (bluez != null) {
            bluez.close();
        }
    }

    private BleDevices.Result scan() {
        return new BleDevices(bluez.address()).scan(SHORT);
    }

    @Test
    void givenDevicesInReach_whenScanned_thenStrongestFirstWithNamesAndServices() {
        bluez.tellAll(List.of(
                "adapter hci0",
                "device hci0 C0:FF:EE:00:00:01 -80 Draft sensor",
                "device hci0 C0:FF:EE:00:00:02 - Quiet one",
                "device hci0 C0:FF:EE:00:00:03 -50 Near",
                "advertise C0:FF:EE:00:00:01 0000181a-0000-1000-8000-00805f9b34fb",
                "device hci0 C0:FF:EE:00:00:04 -50 Away",
                "reach C0:FF:EE:00:00:04 no"));
        BleDevices.Result result = scan();
        assertThat(result.problem()).isEmpty();
        assertThat(result.devices())
                .extracting(BleDevices.Found::name)
                .containsExactly("Near", "Draft sensor", "Quiet one");
        assertThat(result.devices().get(1))
                .isEqualTo(new BleDevices.Found(
                        "C0:FF:EE:00:00:01",
                        "hci0",
                        "Draft sensor",
                        OptionalInt.of(-80),
                        List.of("0000181a-0000-1000-8000-00805f9b34fb"),
                        true));
        assertThat(result.devices().get(2).rssi()).isEmpty();
        assertThat(bluez.tell("count StopDiscovery")).isEqualTo("1");
    }

    @Test
    void givenNoBlueZ_whenScanned_thenNoneWithTheReason() {
        bluez.stopBlueZ();
        assertThat(scan().devices()).isEmpty();
        assertThat(scan().problem()).contains("start the service 'bluetooth'");
    }

    @Test
    void givenNoAdapter_whenScanned_thenNoneWithTheReason() {
        assertThat(scan().devices()).isEmpty();
        assertThat(scan().problem()).contains("no Bluetooth adapter");
    }

    @Test
    void givenAdapterOff_whenScanned_thenNoneWithTheReason() {
        bluez.tellAll(List.of("adapter hci0", "power hci0 off"));
        assertThat(scan().problem()).contains("adapter hci0 is off; switch Bluetooth on");
    }

    @Test
    void givenNoBus_whenScanned_thenNoneWithTheReason() {
        BleDevices.Result result = new BleDevices("unix:path=" + folder.resolve("none")).scan(SHORT);
        assertThat(result.devices()).isEmpty();
        assertThat(result.problem()).contains("no D-Bus system bus").hasLineCount(1);
    }
}
