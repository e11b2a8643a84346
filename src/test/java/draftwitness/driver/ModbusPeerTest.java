package draftwitness.driver;

import static org.assertj.core.api.Assertions.assertThat;

import draftwitness.input.InputException;
import draftwitness.time.Ticker;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Our Modbus master against an independent server, pymodbus, over a real pseudo-terminal. */
class ModbusPeerTest {
    private static final String PYTHON = "/usr/bin/python3";
    private static final String SERVER = "src/test/resources/peers/modbus_server.py";

    @TempDir
    Path folder;

    @BeforeEach
    void peers() {
        Peer.require("socat", "-V");
        Peer.require(PYTHON, "-c", "import pymodbus, serial_asyncio");
    }

    private Decoder decoder(String pace, String... readings) throws IOException, InputException {
        StringBuilder text =
                new StringBuilder("title = \"t\"\nkind = \"modbus\"\n[modbus]\nunit-id = 17\nbaud = 38400\n");
        text.append(pace).append('\n');
        int i = 0;
        for (String reading : readings) {
            text.append("[[reading]]\nname = \"r").append(i++).append("\"\n").append(reading.replace(';', '\n'));
            text.append(reading.contains("unit") ? "\n" : "\nunit = \"Pa\"\n");
        }
        Path file = Files.writeString(folder.resolve("mine.toml"), text);
        return DriverCatalog.fromFile(file.toString()).newDecoder();
    }

    private Process server(Peer peer, int base) throws IOException {
        return peer.start(PYTHON, SERVER, "DEVICE", "17", Integer.toString(base));
    }

    @Test
    void givenEveryTypeTableAndOrder_whenPolled_thenTheServersValuesAreRead() throws Exception {
        try (Peer peer = new Peer(folder)) {
            server(peer, 0);
            Decoder decoder = decoder(
                    "period = 0.02\ntimeout = 10",
                    "register = 0;scale = 0.1",
                    "register = 1;type = \"float32\"",
                    "register = 3;type = \"float32\";order = \"big-swapped\"",
                    "register = 5;type = \"float32\";order = \"little\"",
                    "register = 7;type = \"float32\";order = \"little-swapped\"",
                    "register = 9;type = \"int32\"",
                    "register = 11;type = \"uint16\"",
                    "register = 12;type = \"float64\"",
                    "register = 16;type = \"uint16\";bit = 2;unit = \"1\"",
                    "register = 0;table = \"input\"",
                    "register = 3;table = \"coil\";unit = \"1\"",
                    "register = 4;table = \"coil\";unit = \"1\"",
                    "register = 11;table = \"discrete\";unit = \"1\"");
            peer.talk(decoder, () -> peer.log.readings.size() >= 130);

            assertThat(peer.log.readings.stream().sorted().distinct())
                    .containsExactlyInAnyOrder(
                            "0: -312.4 Pa",
                            "1: -312.400 Pa",
                            "2: -312.400 Pa",
                            "3: -312.400 Pa",
                            "4: -312.400 Pa",
                            "5: -70000 Pa",
                            "6: 62412 Pa",
                            "7: -0.750 Pa",
                            "8: 1 1",
                            "9: -25 Pa",
                            "10: 1 1",
                            "11: 0 1",
                            "12: 1 1");
            assertThat(peer.log.faults).isEmpty();
        }
    }

    @Test
    void givenAddressBeyondTheEnd_whenPolled_thenItIsRefusedAndTheOthersGoOn() throws Exception {
        try (Peer peer = new Peer(folder)) {
            server(peer, 0);
            peer.talk(
                    decoder("period = 0.02\ntimeout = 10", "register = 0", "register = 5000"),
                    () -> peer.log.readings.size() >= 20 && peer.log.faults.getOrDefault(Fault.REFUSED, 0) >= 20);

            assertThat(peer.log.readings).containsOnly("0: -3124 Pa");
            assertThat(peer.log.faults).containsOnlyKeys(Fault.REFUSED);
        }
    }

    @Test
    void givenAnswersThatComeTooLate_whenPolled_thenNoStaleValueIsEverRead() throws Exception {
        try (Peer peer = new Peer(folder)) {
            server(peer, 0);
            // register 50 takes 0.4 s and is -1; register 40 counts its reads from 1 on
            Decoder decoder = decoder("period = 0.02\ntimeout = 0.2\nquiet = 1.5", "register = 40", "register = 50");
            peer.talk(decoder, () -> peer.log.faults.getOrDefault(Fault.NO_ANSWER, 0) >= 4);

            assertThat(peer.log.readings)
                    .isNotEmpty()
                    .allMatch(r -> r.startsWith("0: "))
                    .doesNotContain("0: -1 Pa");
            assertThat(peer.log.faults).containsKey(Fault.STRAY_ANSWER);
            assertRising(peer.log.readings);
        }
    }

    private static void assertRising(List<String> readings) {
        List<Long> counts = new ArrayList<>();
        for (String reading : readings) {
            counts.add(Long.parseLong(reading.substring(3, reading.indexOf(' ', 3))));
        }
        assertThat(counts).isSorted().doesNotHaveDuplicates();
    }

    @Test
    void givenServerThatRestarts_whenPolled_thenReadingsResumeWithTheNewValues() throws Exception {
        try (Peer peer = new Peer(folder)) {
            Process first = server(peer, 1000);
            Decoder decoder = decoder("period = 0.02\ntimeout = 1.5\nquiet = 1.0", "register = 40");
            peer.talk(decoder, () -> peer.log.readings.size() >= 20);
            first.destroy();
            first.waitFor();
            peer.talk(decoder, () -> peer.log.faults.getOrDefault(Fault.NO_ANSWER, 0) >= 2);
            int before = peer.log.readings.size(); // with the answers that were under way when it died
            server(peer, 5000);
            peer.talk(decoder, () -> peer.log.readings.size() >= before + 20);
            decoder.restart(Ticker.system().nanos());

            assertRising(peer.log.readings);
            assertThat(peer.log.readings.get(before)).startsWith("0: 50");
        }
    }
}
