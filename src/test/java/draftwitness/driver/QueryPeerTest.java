package draftwitness.driver;

import static org.assertj.core.api.Assertions.assertThat;

import java.math.BigDecimal;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Text questions against an instrument emulator in another process, over a real pseudo-terminal. */
class QueryPeerTest {
    @TempDir
    Path folder;

    @Test
    void givenEmulatorWithLateAnswersAndSpecialValues_whenPolled_thenNoValueIsStaleOrInvented() throws Exception {
        Peer.require("socat", "-V");
        Peer.require("/usr/bin/python3", "-V");
        try (Peer peer = new Peer(folder)) {
            peer.start("/usr/bin/python3", "src/test/resources/peers/scpi_emulator.py", "DEVICE");
            Decoder decoder = DriverCatalog.shipped()
                    .find("scpi-query?start=UNIT PA&period=0.01&timeout=0.25&quiet=1.5")
                    .newDecoder();
            peer.talk(decoder, () -> peer.log.readings.size() >= 30);

            List<Integer> counts = peer.log.readings.stream()
                    .map(r -> new BigDecimal(r.substring(3, r.indexOf(' ', 3))).intValueExact())
                    .toList();
            assertThat(counts).isSorted().doesNotHaveDuplicates();
            assertThat(counts).allMatch(c -> c % 5 != 0 && c % 7 != 0); // those are "no value", and late
            assertThat(peer.log.faults).containsOnlyKeys(Fault.NO_VALUE, Fault.NO_ANSWER, Fault.STRAY_ANSWER);
        }
    }
}
