package draftwitness.link;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import draftwitness.testkit.Peers;
import draftwitness.testkit.Pty;
import draftwitness.time.Ticker;
import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;

/** Real pseudo-terminals; the folder of stable names is made by the test, as the system would keep it. */
@Timeout(20)
class StableNamesTest {
    @TempDir
    Path folder;

    @BeforeEach
    void needPty() {
        Peers.needPty();
    }

    @Test
    void givenPortWithStableName_whenItReturnsUnderAnotherNumber_thenItIsFoundThere_andNotItsOldNumbersNewOwner()
            throws Exception {
        StableNames names = new StableNames(folder);
        Path stable = folder.resolve("usb-sensor-0001-if00");
        Pty first = new Pty();
        first.linkAs(stable);
        LinkAddress again;
        try (ByteLink link =
                SerialLink.open(LinkAddress.parse("serial:" + first.path() + "?baud=19200"), Ticker.system(), names)) {
            again = link.returnAddress().orElseThrow();
        }
        assertThat(again.toString()).isEqualTo("serial:" + stable + "?baud=19200");
        try (Pty second = new Pty()) { // made before the first goes, so that it gets another number
            first.close();
            Files.delete(stable);
            assertThatThrownBy(() -> SerialLink.open(again, Ticker.system(), names))
                    .isInstanceOf(LinkException.class)
                    .hasMessageContaining("no such port"); // even if another device has its number now
            second.linkAs(stable);
            try (ByteLink link = SerialLink.open(again, Ticker.system(), names)) {
                second.send("x");
                assertThat(link.read().orElseThrow().toArray()).asString().isEqualTo("x");
            }
        }
    }

    @Test
    void givenChosenSymbolicLinkOrNoName_whenAsked_thenNone() throws Exception {
        try (Pty pty = new Pty()) {
            Path chosen = folder.resolve("mine");
            pty.linkAs(chosen);
            assertThat(new StableNames(folder).of(chosen.toString())).isEmpty();
            assertThat(new StableNames(folder.resolve("missing")).of(pty.path().toString()))
                    .isEmpty();
        }
    }
}
