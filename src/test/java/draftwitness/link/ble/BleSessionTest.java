package draftwitness.link.ble;

import static org.assertj.core.api.Assertions.assertThat;

import draftwitness.app.HealthReporter;
import draftwitness.app.RecordSwitch;
import draftwitness.app.SourcePlanner;
import draftwitness.capture.CaptureSession;
import draftwitness.capture.SourceHealth;
import draftwitness.driver.DriverCatalog;
import draftwitness.reading.Channel;
import draftwitness.reading.Decimal;
import draftwitness.reading.SourceEvent;
import draftwitness.reading.SourceState;
import draftwitness.reading.Tap;
import draftwitness.recording.RecordingFile;
import draftwitness.time.Ticker;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HexFormat;
import java.util.List;
import java.util.concurrent.TimeUnit;
import java.util.function.Predicate;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;

/**
 * Whole sessions over Bluetooth: drivers, links, supervision and the recording, with a program that behaves like BlueZ.
 */
@Timeout(120)
class BleSessionTest {
    private static final String SIGNED = "12345678-0000-1000-8000-00805f9b34fb";
    private static final String THIRD = "C0:FF:EE:00:00:03";

    @TempDir
    Path folder;

    private FakeBlueZ bluez;
    private CaptureSession session;
    private Path file;
    private RecordSwitch.Run run;

    @BeforeEach
    void start() throws Exception {
        bluez = new FakeBlueZ(folder);
        bluez.tellAll(List.of(
                "adapter hci0",
                "device hci0 " + BleLinkTest.SENSOR + " -60 Draft sensor",
                "service " + BleLinkTest.SENSOR + " " + BleLinkTest.ESS + " " + BleLinkTest.PRESSURE
                        + " read,notify 00000000",
                "device hci0 " + BleLinkTest.OTHER + " -61 Text sensor",
                "service " + BleLinkTest.OTHER + " " + BleLinkTest.UART + " " + BleLinkTest.TEXT + " notify 00",
                // signed 32-bit tenths of a pascal, as its Presentation Format says
                "device hci0 " + THIRD + " -62 Signed sensor",
                "service " + THIRD + " 12340000-0000-1000-8000-00805f9b34fb " + SIGNED
                        + " read,notify 00000000 10ff2427010000"));
    }

    @AfterEach
    void stop() {
        if (session != null) {
            session.close();
        }
        if (bluez != null) {
            bluez.close();
        }
    }

    private void record(Patience patience, String... sources) throws Exception {
        file = folder.resolve("ble.dwrec");
        RecordSwitch recorder = new RecordSwitch();
        run = recorder.start(file);
        session = new CaptureSession(
                new SourcePlanner(DriverCatalog.shipped()).plan(List.of(sources), List.of()),
                new BleLinks(bluez.address(), patience),
                Ticker.system(),
                "",
                "",
                List.of(recorder));
        session.start();
    }

    private SourceHealth await(int source, Predicate<SourceHealth> wanted) throws InterruptedException {
        while (!wanted.test(session.health().get(source))) {
            assertThat(session.awaitEnd(20, TimeUnit.MILLISECONDS)).isFalse();
        }
        return session.health().get(source);
    }

    private RecordingFile finish() throws Exception {
        assertThat(session.stop()).isTrue();
        assertThat(run.awaitFinished(30, TimeUnit.SECONDS)).isTrue();
        return RecordingFile.open(file);
    }

    private static List<String> readings(RecordingFile recording, Tap tap) throws Exception {
        List<String> out = new ArrayList<>();
        recording.forEachSlice(
                Long.MIN_VALUE,
                Long.MAX_VALUE,
                slice -> slice.blocks().stream()
                        .filter(b -> b.channel().tap() == tap)
                        .forEach(b -> {
                            for (int i = 0; i < b.size(); i++) {
                                StringBuilder text = new StringBuilder();
                                Decimal.append(text, b.count(i), b.step().decimals());
                                out.add(text.toString());
                            }
                        }));
        return out;
    }

    private static List<SourceState> states(RecordingFile recording, String source) throws Exception {
        return recording.events().stream()
                .filter(e -> e.sourceId().equals(source))
                .map(SourceEvent::state)
                .distinct()
                .toList();
    }

    private static String tenths(int count) {
        return HexFormat.of()
                .formatHex(new byte[] {(byte) count, (byte) (count >> 8), (byte) (count >> 16), (byte) (count >> 24)});
    }

    private static String hex(String text) {
        return HexFormat.of().formatHex(text.getBytes(StandardCharsets.US_ASCII));
    }

    @Test
    void givenThreeDevices_whenOneGoesAndReturns_thenTheRecordingHoldsExactlyWhatEachSent_withItsGap()
            throws Exception {
        record(
                BleLinkTest.PATIENT,
                "draft.switch=ble-pressure@ble:" + BleLinkTest.SENSOR,
                "draft.inducer=ble-text@ble:" + BleLinkTest.OTHER,
                "gas.inlet=ble-signed@ble:" + THIRD);
        bluez.tell("battery " + BleLinkTest.SENSOR + " 87"); // BlueZ tells it once the device is connected
        for (int i = 1; i <= 50; i++) {
            bluez.tell("notify " + BleLinkTest.SENSOR + " " + BleLinkTest.PRESSURE + " " + tenths(i));
            // one line in two pieces, as a radio cuts it
            bluez.tell("notify " + BleLinkTest.OTHER + " " + BleLinkTest.TEXT + " " + hex("-" + i) + " "
                    + hex(".5 Pa\r\n"));
            bluez.tell("notify " + THIRD + " " + SIGNED + " " + tenths(-i));
        }
        SourceHealth first = await(0, h -> h.readings() == 50);
        assertThat(first.batteryPercent()).hasValue(87);
        assertThat(HealthReporter.line(first)).contains("50 readings", "decoded within", "battery 87 %");
        await(1, h -> h.readings() >= 49);
        await(2, h -> h.readings() == 50);

        bluez.tell("reach " + BleLinkTest.SENSOR + " no");
        await(0, h -> h.state() == SourceState.GONE || h.state() == SourceState.RETRYING);
        bluez.tell("notify " + THIRD + " " + SIGNED + " " + tenths(-51)); // the others go on meanwhile
        await(2, h -> h.readings() == 51);
        bluez.tell("reach " + BleLinkTest.SENSOR + " yes");
        await(0, h -> h.state() == SourceState.LIVE && h.reconnects() == 1);
        bluez.tell("notify " + BleLinkTest.SENSOR + " " + BleLinkTest.PRESSURE + " " + tenths(51));
        await(0, h -> h.readings() == 51);

        try (RecordingFile recording = finish()) {
            assertThat(recording.header().channels())
                    .extracting(Channel::sourceId)
                    .hasSize(3);
            List<String> pressure = readings(recording, Tap.DRAFT_SWITCH);
            assertThat(pressure).hasSize(51).startsWith("0.1", "0.2").endsWith("5.0", "5.1");
            assertThat(pressure).doesNotHaveDuplicates();
            // the first line may have begun before the subscription, so it is not believed
            assertThat(readings(recording, Tap.DRAFT_INDUCER))
                    .hasSizeBetween(49, 50)
                    .endsWith("-49.5", "-50.5");
            assertThat(readings(recording, Tap.GAS_INLET))
                    .hasSize(51)
                    .startsWith("-0.1")
                    .endsWith("-5.1");
            assertThat(states(recording, "draft.switch")).contains(SourceState.LIVE, SourceState.GONE);
            assertThat(states(recording, "gas.inlet")).doesNotContain(SourceState.GONE);
        }
    }

    @Test
    void givenAdapterSwitchedOffAndOn_whenRecorded_thenGoneAndBackInTheSameRecording() throws Exception {
        record(BleLinkTest.PATIENT, "draft.switch=ble-pressure@ble:" + BleLinkTest.SENSOR);
        bluez.tell("notify " + BleLinkTest.SENSOR + " " + BleLinkTest.PRESSURE + " " + tenths(1));
        await(0, h -> h.readings() == 1);
        bluez.tell("power hci0 off");
        await(0, h -> h.state() == SourceState.RETRYING);
        bluez.tell("power hci0 on");
        await(0, h -> h.state() == SourceState.LIVE && h.reconnects() == 1);
        bluez.tell("notify " + BleLinkTest.SENSOR + " " + BleLinkTest.PRESSURE + " " + tenths(2));
        await(0, h -> h.readings() == 2);
        try (RecordingFile recording = finish()) {
            assertThat(readings(recording, Tap.DRAFT_SWITCH)).containsExactly("0.1", "0.2");
        }
    }

    @Test
    void givenSensorThatIsRead_whenItsValueChanges_thenItIsRecorded_andWhenItStopsItIsSilent() throws Exception {
        record(
                BleLinkTest.PATIENT,
                "draft.switch=ble-pressure?get=read&period=0.05@ble:" + BleLinkTest.SENSOR,
                "gas.inlet=ble-signed@ble:" + THIRD);
        bluez.tell("value " + BleLinkTest.SENSOR + " " + BleLinkTest.PRESSURE + " " + tenths(123));
        long soFar = session.health().get(0).readings();
        await(0, h -> h.readings() > soFar + 3);
        bluez.tell("notify " + THIRD + " " + SIGNED + " " + tenths(-7));
        // nothing more from the third: after 5 s it is called silent, and its link stays open
        SourceHealth silent = await(1, h -> h.state() == SourceState.SILENT);
        assertThat(silent.detail()).contains("nothing for 5 s");
        bluez.tell("notify " + THIRD + " " + SIGNED + " " + tenths(-8));
        assertThat(await(1, h -> h.state() == SourceState.LIVE).reconnects()).isZero();
        try (RecordingFile recording = finish()) {
            assertThat(readings(recording, Tap.DRAFT_SWITCH)).contains("12.3");
            assertThat(readings(recording, Tap.GAS_INLET)).containsExactly("-0.7", "-0.8");
        }
    }

    @Test
    void givenOneDeviceOutOfReachAtTheStart_whenStarted_thenTheOtherIsNotHeldUp() throws Exception {
        bluez.tell("reach " + THIRD + " no");
        record(
                BleLinkTest.PATIENT,
                "gas.inlet=ble-signed@ble:" + THIRD,
                "draft.switch=ble-pressure@ble:" + BleLinkTest.SENSOR);
        assertThat(session.health().get(0).state()).isEqualTo(SourceState.OPENING);
        bluez.tell("notify " + BleLinkTest.SENSOR + " " + BleLinkTest.PRESSURE + " " + tenths(1));
        await(1, h -> h.readings() == 1);
        bluez.tell("reach " + THIRD + " yes");
        await(0, h -> h.state() == SourceState.LIVE);
        try (RecordingFile recording = finish()) {
            assertThat(readings(recording, Tap.DRAFT_SWITCH)).containsExactly("0.1");
        }
    }
}
