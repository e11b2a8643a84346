package draftwitness.link.ble;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.catchThrowable;

import draftwitness.link.ByteLink;
import draftwitness.link.LinkAddress;
import draftwitness.link.LinkException;
import draftwitness.link.LinkNeeds;
import draftwitness.reading.Chunk;
import draftwitness.time.Ticker;
import java.nio.file.Path;
import java.time.Duration;
import java.util.ArrayList;
import java.util.HexFormat;
import java.util.List;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.TimeUnit;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/** Links over a real D-Bus to a program that behaves like BlueZ. */
@Timeout(60)
class BleLinkTest {
    static final String ESS = "0000181a-0000-1000-8000-00805f9b34fb";
    static final String PRESSURE = "00002a6d-0000-1000-8000-00805f9b34fb";
    static final String TEXT = "6e400003-b5a3-f393-e0a9-e50e24dcca9e";
    static final String UART = "6e400001-b5a3-f393-e0a9-e50e24dcca9e";
    static final String SENSOR = "C0:FF:EE:00:00:01";
    static final String OTHER = "C0:FF:EE:00:00:02";

    /** Long enough for a busy machine where an answer is expected, short where none is. */
    static final Patience PATIENT = new Patience(
            Duration.ofSeconds(20),
            Duration.ofSeconds(20),
            Duration.ofSeconds(20),
            Duration.ofSeconds(20),
            Duration.ofMinutes(5),
            Duration.ofMinutes(5),
            Duration.ofMinutes(10));

    static Patience hasty() {
        return new Patience(
                Duration.ofMillis(300),
                Duration.ofMillis(300),
                Duration.ofSeconds(20),
                Duration.ofSeconds(20),
                Duration.ofMillis(200),
                Duration.ofMillis(800),
                Duration.ofMinutes(10));
    }

    @TempDir
    Path folder;

    private FakeBlueZ bluez;
    private final List<ByteLink> opened = new ArrayList<>();

    @BeforeEach
    void start() throws Exception {
        bluez = new FakeBlueZ(folder);
    }

    @AfterEach
    void stop() {
        opened.forEach(ByteLink::close);
        if (bluez != null) {
            bluez.close();
        }
    }

    private void plugIn() {
        bluez.tellAll(List.of(
                "adapter hci0",
                "device hci0 " + SENSOR + " -60 Draft sensor",
                "service " + SENSOR + " " + ESS + " " + PRESSURE + " read,notify 10270000 0e01ff2700000000"));
    }

    static LinkNeeds sent(String uuid) {
        return new LinkNeeds(List.of(new LinkNeeds.Value(LinkNeeds.ANY, uuid, 0, false)), true);
    }

    private BleLinks links(Patience patience) {
        return new BleLinks(bluez.address(), patience);
    }

    private ByteLink open(BleLinks links, String device, LinkNeeds needs) throws Exception {
        ByteLink link = links.open(LinkAddress.parse("ble:" + device), needs, Ticker.system());
        opened.add(link);
        return link;
    }

    private static String hex(Chunk chunk) {
        return HexFormat.of().formatHex(chunk.toArray());
    }

    private static String failure(ByteLink link) {
        Throwable thrown = catchThrowable(() -> {
            while (link.read().isPresent()) {
                assertThat(true).isTrue();
            }
        });
        assertThat(thrown).isInstanceOf(LinkException.class).hasMessageContaining(SENSOR);
        return thrown.getMessage();
    }

    @Test
    void givenUnknownDevice_whenOpened_thenFoundConnectedAndItsValuesCome() throws Exception {
        plugIn();
        ByteLink link = open(links(PATIENT), SENSOR, sent(PRESSURE));
        bluez.tell("notify " + SENSOR + " " + PRESSURE + " 01000000 02000000 ff");
        List<String> got = new ArrayList<>();
        long last = Long.MIN_VALUE;
        for (int i = 0; i < 3; i++) {
            Chunk chunk = link.read().orElseThrow();
            assertThat(chunk.endpoint()).isEqualTo(PRESSURE);
            assertThat(chunk.arrivalNanos()).isGreaterThanOrEqualTo(last);
            last = chunk.arrivalNanos();
            got.add(hex(chunk));
        }
        assertThat(got).containsExactly("01000000", "02000000", "ff");
        assertThat(bluez.tell("count StartDiscovery")).isEqualTo("1");
        assertThat(bluez.tell("count StopDiscovery")).isEqualTo("1");
    }

    @Test
    void givenKnownDevice_whenOpened_thenNotSearchedFor() throws Exception {
        plugIn();
        BleLinks links = links(PATIENT);
        open(links, SENSOR, sent(PRESSURE)).close();
        open(links, SENSOR, sent(PRESSURE));
        assertThat(bluez.tell("count StartDiscovery")).isEqualTo("1");
        assertThat(bluez.tell("subscribed " + SENSOR + " " + PRESSURE)).isEqualTo("yes");
    }

    @Test
    void givenFormatWanted_whenOpened_thenFormatComesBeforeTheFirstValue() throws Exception {
        plugIn();
        LinkNeeds needs = new LinkNeeds(List.of(new LinkNeeds.Value(LinkNeeds.ANY, LinkNeeds.ANY, 0, true)), false);
        ByteLink link = open(links(PATIENT), SENSOR, needs);
        bluez.tell("notify " + SENSOR + " " + PRESSURE + " 05000000");
        Chunk format = link.read().orElseThrow();
        assertThat(format.endpoint()).isEqualTo(PRESSURE + "/2904");
        assertThat(hex(format)).isEqualTo("0e01ff2700000000");
        assertThat(link.read().orElseThrow().endpoint()).isEqualTo(PRESSURE);
    }

    @Test
    void givenReadWanted_whenOpened_thenReadAgainAndAgainAndEachValueOnce() throws Exception {
        plugIn();
        LinkNeeds needs = new LinkNeeds(List.of(new LinkNeeds.Value(ESS, PRESSURE, 20_000_000, false)), false);
        ByteLink link = open(links(PATIENT), SENSOR, needs);
        assertThat(hex(link.read().orElseThrow())).isEqualTo("10270000");
        bluez.tell("value " + SENSOR + " " + PRESSURE + " 77");
        List<String> got = new ArrayList<>();
        while (!got.contains("77")) {
            got.add(hex(link.read().orElseThrow()));
        }
        long reads = Long.parseLong(bluez.tell("count ReadValue"));
        assertThat((long) got.size() + 1).isEqualTo(reads); // the signal that a read causes is not a second value
        assertThat(bluez.tell("subscribed " + SENSOR + " " + PRESSURE)).isEqualTo("no");
    }

    @Test
    void givenBatteryCharacteristic_whenOpened_thenItsLevelIsAnEndpointOfItsOwn() throws Exception {
        plugIn();
        bluez.tell("service " + SENSOR + " 0000180f-0000-1000-8000-00805f9b34fb " + Choice.BATTERY + " read 5c");
        ByteLink link = open(links(PATIENT), SENSOR, sent(PRESSURE));
        Chunk level = link.read().orElseThrow();
        assertThat(level.endpoint()).isEqualTo(Choice.BATTERY);
        assertThat(level.at(0)).isEqualTo(92);
    }

    @Test
    void givenBatteryKeptByBlueZ_whenItChanges_thenEachLevelComesOnce() throws Exception {
        plugIn();
        ByteLink link = open(links(PATIENT), SENSOR, sent(PRESSURE));
        bluez.tell("battery " + SENSOR + " 80");
        Chunk level = link.read().orElseThrow();
        assertThat(level.endpoint()).isEqualTo(Choice.BATTERY);
        assertThat(level.at(0)).isEqualTo(80);
        bluez.tell("battery " + SENSOR + " 80");
        bluez.tell("battery " + SENSOR + " 79");
        assertThat(link.read().orElseThrow().at(0)).isEqualTo(79);
    }

    @Test
    void givenTwoDevices_whenBothSend_thenEachLinkGetsItsOwn() throws Exception {
        plugIn();
        bluez.tellAll(List.of(
                "device hci0 " + OTHER + " - Text sensor",
                "service " + OTHER + " " + UART + " " + TEXT + " notify 00"));
        BleLinks links = links(PATIENT);
        ByteLink first = open(links, SENSOR, sent(PRESSURE));
        ByteLink second = open(links, OTHER, sent(TEXT));
        bluez.tell("notify " + OTHER + " " + TEXT + " 2b31");
        bluez.tell("notify " + SENSOR + " " + PRESSURE + " 01000000");
        bluez.tell("reach " + SENSOR + " no");
        bluez.tell("notify " + OTHER + " " + TEXT + " 2b32");
        assertThat(hex(first.read().orElseThrow())).isEqualTo("01000000");
        assertThat(failure(first)).contains("disconnected");
        first.close(); // must not take the other's bus away
        bluez.tell("notify " + OTHER + " " + TEXT + " 2b33");
        for (String expected : List.of("2b31", "2b32", "2b33")) {
            assertThat(hex(second.read().orElseThrow())).isEqualTo(expected);
        }
    }

    @Test
    void givenDeviceInUse_whenOpenedAgain_thenRefusedAndTheFirstGoesOn() throws Exception {
        plugIn();
        BleLinks links = links(PATIENT);
        ByteLink link = open(links, SENSOR, sent(PRESSURE));
        assertThatThrownBy(() -> open(links, SENSOR, sent(PRESSURE)))
                .isInstanceOf(LinkException.class)
                .hasMessageContaining("is a source already");
        bluez.tell("notify " + SENSOR + " " + PRESSURE + " 01000000");
        assertThat(hex(link.read().orElseThrow())).isEqualTo("01000000");
    }

    @ParameterizedTest
    @CsvSource(delimiter = '|', textBlock = """
            # what happens                    | what the reader is told
            reach C0:FF:EE:00:00:01 no        | disconnected
            reach C0:FF:EE:00:00:01 no forget | disconnected
            power hci0 off                    | adapter hci0 is off; switch Bluetooth on
            unplug hci0                       | adapter hci0 is gone; plug it in again
            restart C0:FF:EE:00:00:01         | offers other services than before
            """)
    void givenOpenLink_whenSomethingGoes_thenReadFailsAndItCanBeOpenedAgainLater(String event, String words)
            throws Exception {
        plugIn();
        BleLinks links = links(PATIENT);
        ByteLink link = open(links, SENSOR, sent(PRESSURE));
        bluez.tell("notify " + SENSOR + " " + PRESSURE + " 01000000");
        bluez.tell(event);
        assertThat(hex(link.read().orElseThrow())).isEqualTo("01000000"); // what came before is not lost
        assertThat(failure(link)).contains(words);
        link.close();
        switch (event.split(" ", 2)[0]) {
            case "power" -> bluez.tell("power hci0 on");
            case "unplug" -> bluez.tell("adapter hci0");
            default -> bluez.tell("reach " + SENSOR + " yes");
        }
        ByteLink again = open(links, SENSOR, sent(PRESSURE));
        bluez.tell("notify " + SENSOR + " " + PRESSURE + " 02000000");
        assertThat(hex(again.read().orElseThrow())).isEqualTo("02000000");
    }

    @Test
    void givenBlueZStopped_whenItIsBack_thenALinkCanBeOpenedAgain() throws Exception {
        plugIn();
        BleLinks links = links(PATIENT);
        ByteLink link = open(links, SENSOR, sent(PRESSURE));
        bluez.stopBlueZ();
        assertThat(failure(link)).contains("BlueZ has stopped");
        link.close();
        bluez.startBlueZ();
        plugIn();
        ByteLink again = open(links, SENSOR, sent(PRESSURE));
        bluez.tell("notify " + SENSOR + " " + PRESSURE + " 02000000");
        assertThat(hex(again.read().orElseThrow())).isEqualTo("02000000");
    }

    @Test
    void givenSilence_whenItLasts_thenTheLinkEndsLaterEachTimeUntilAValueComes() throws Exception {
        plugIn();
        BleLinks links = links(hasty());
        for (String milliseconds : List.of("0 s", "0 s", "1 s", "1 s")) { // 0.2, 0.4, 0.8, 0.8 s
            ByteLink link = open(links, SENSOR, sent(PRESSURE));
            assertThat(failure(link)).contains("sent nothing for " + milliseconds);
            link.close();
        }
        ByteLink link = open(links, SENSOR, sent(PRESSURE));
        bluez.tell("notify " + SENSOR + " " + PRESSURE + " 02000000");
        assertThat(hex(link.read().orElseThrow())).isEqualTo("02000000");
        assertThat(failure(link)).contains("sent nothing for 0 s");
        assertThat(bluez.tell("count StartNotify")).isEqualTo("5");
    }

    @Test
    void givenDeviceOutOfReach_whenOpened_thenOneLineAndNothingStaysBehind() throws Exception {
        plugIn();
        bluez.tell("reach " + SENSOR + " no");
        BleLinks links = links(hasty());
        assertThatThrownBy(() -> open(links, SENSOR, sent(PRESSURE)))
                .isInstanceOf(LinkException.class)
                .hasMessageContaining(SENSOR)
                .hasMessageContaining("not heard within");
        bluez.tell("reach " + SENSOR + " yes");
        open(links, SENSOR, sent(PRESSURE)).close();
        bluez.tell("reach " + SENSOR + " no");
        assertThatThrownBy(() -> open(links, SENSOR, sent(PRESSURE)))
                .isInstanceOf(LinkException.class)
                .hasMessageContaining("waited in vain for a connection");
        assertThat(bluez.tell("count Connect")).isEqualTo("2");
    }

    @Test
    void givenDeviceOutOfReach_whenTheOpeningThreadIsInterrupted_thenItGivesUpAtOnce() throws Exception {
        plugIn();
        BleLinks links = links(PATIENT);
        open(links, SENSOR, sent(PRESSURE)).close();
        bluez.tell("reach " + SENSOR + " no");
        CompletableFuture<Throwable> failure = new CompletableFuture<>();
        Thread opener = new Thread(() -> failure.complete(catchThrowable(() -> open(links, SENSOR, sent(PRESSURE)))));
        opener.start();
        while (!bluez.tell("count Connect").equals("2")) {
            assertThat(failure).isNotDone();
        }
        opener.interrupt();
        assertThat(failure.get(15, TimeUnit.SECONDS)).hasMessageContaining("interrupted");
        opener.join();
    }

    @Test
    void givenWaitingRead_whenClosed_thenReadEndsAndTheDeviceIsLeft() throws Exception {
        plugIn();
        ByteLink link = open(links(PATIENT), SENSOR, sent(PRESSURE));
        CompletableFuture<String> failure = CompletableFuture.supplyAsync(() -> failure(link));
        link.close();
        assertThat(failure.get(15, TimeUnit.SECONDS)).contains("closed");
        link.close(); // the second time does nothing
        assertThat(bluez.tell("count Disconnect")).isEqualTo("1");
        assertThatThrownBy(() -> link.write(new byte[1])).isInstanceOf(LinkException.class);
    }

    @ParameterizedTest
    @CsvSource(delimiter = '|', textBlock = """
            # BlueZ refuses | saying                              | what the person reads
            Connect         | le-connection-abort-by-local        | does not answer; is it switched on and in reach?
            Connect         | br-connection-unknown               | a connection failed: br-connection-unknown
            StartNotify     | Operation failed with ATT error: 0x0e | failed: Operation failed with ATT error: 0x0e
            StartNotify     | Not paired                          | pair once
            StartDiscovery  | Resource Not Ready                  | the adapter is off
            """)
    void givenRefusal_whenOpened_thenTheReasonIsSaid(String method, String saying, String words) throws Exception {
        plugIn();
        bluez.tell("refuse " + method + " " + saying);
        BleLinks links = links(PATIENT);
        assertThatThrownBy(() -> open(links, SENSOR, sent(PRESSURE)))
                .isInstanceOf(LinkException.class)
                .hasMessageContaining(words);
        bluez.tell("refuse " + method);
        open(links, SENSOR, sent(PRESSURE)); // nothing is left in the way
    }

    @Test
    void givenConnectionAlreadyThere_whenOpened_thenUsed() throws Exception {
        plugIn();
        BleLinks links = links(PATIENT);
        open(links, SENSOR, sent(PRESSURE));
        bluez.tell("refuse Connect Already Connected");
        open(new BleLinks(bluez.address(), PATIENT), SENSOR, sent(PRESSURE));
    }

    @Test
    void givenDriverForOtherThings_whenOpened_thenToldWhatTheDeviceHas() throws Exception {
        plugIn();
        BleLinks links = links(PATIENT);
        assertThatThrownBy(() -> open(links, SENSOR, sent(TEXT)))
                .hasMessageContaining("has no characteristic " + TEXT)
                .hasMessageContaining("It has " + PRESSURE);
        assertThatThrownBy(() -> open(links, SENSOR, LinkNeeds.BYTES)).hasMessageContaining("driver does not say");
        LinkNeeds otherService = new LinkNeeds(List.of(new LinkNeeds.Value(UART, PRESSURE, 0, false)), false);
        assertThatThrownBy(() -> open(links, SENSOR, otherService)).hasMessageContaining("in service " + UART);
    }

    @Test
    void givenNoAdapterOffAdapterOrAnother_whenOpened_thenOneLineEach() throws Exception {
        BleLinks links = links(PATIENT);
        assertThatThrownBy(() -> open(links, SENSOR, sent(PRESSURE))).hasMessageContaining("no Bluetooth adapter");
        plugIn();
        assertThatThrownBy(() -> open(links, SENSOR + "?adapter=hci3", sent(PRESSURE)))
                .hasMessageContaining("no adapter hci3; there is hci0");
        bluez.tell("power hci0 off");
        assertThatThrownBy(() -> open(links, SENSOR, sent(PRESSURE))).hasMessageContaining("adapter hci0 is off");
    }

    @Test
    void givenNoBlueZ_whenOpened_thenOneLine() throws Exception {
        bluez.stopBlueZ();
        assertThatThrownBy(() -> open(links(PATIENT), SENSOR, sent(PRESSURE)))
                .isInstanceOf(LinkException.class)
                .hasMessageContaining("start the service 'bluetooth'");
    }

    @Test
    void givenNoBus_whenOpened_thenOneLine() throws Exception {
        BleLinks nowhere = new BleLinks("unix:path=" + folder.resolve("none"), PATIENT);
        assertThatThrownBy(() -> open(nowhere, SENSOR, sent(PRESSURE)))
                .isInstanceOf(LinkException.class)
                .hasMessageContaining("no D-Bus system bus")
                .satisfies(e -> assertThat(e.getMessage().lines()).hasSize(1));
    }

    @ParameterizedTest
    @ValueSource(strings = {"C0:FF:EE:00:00", "C0FFEE000001", "G0:FF:EE:00:00:01", "Draft"})
    void givenBadAddress_whenOpened_thenToldHowItLooks(String target) {
        assertThatThrownBy(() -> open(links(PATIENT), target, sent(PRESSURE)))
                .isInstanceOf(LinkException.class)
                .hasMessageContaining("ble:AA:BB:CC:DD:EE:FF");
    }

    @Test
    void givenFloodBeyondTheQueue_whenRead_thenTheLossIsCountedAndSaid() throws Exception {
        Inbox inbox = new Inbox(Ticker.system());
        for (int i = 0; i < Inbox.CAPACITY + 3; i++) {
            inbox.put(PRESSURE, new byte[] {1});
        }
        assertThat(inbox.lost()).isEqualTo(3);
    }

    @Test
    void givenOtherSystem_whenAsked_thenBluetoothNeedsLinux() {
        assertThatThrownBy(() -> Platform.check("Mac OS X")).hasMessageContaining("need Linux");
    }
}
