package draftwitness.link;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import draftwitness.testkit.Peers;
import draftwitness.testkit.Pty;
import draftwitness.time.Ticker;
import java.nio.file.Path;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class SerialLinkTest extends ByteLinkContract {
    private Pty pty;

    @Override
    void startInstrument() throws Exception {
        Peers.needPty();
        pty = new Pty();
    }

    @Override
    LinkAddress address() throws Exception {
        return LinkAddress.parse("serial:" + pty.path() + "?baud=115200");
    }

    @Override
    void instrumentSends(byte[] bytes) throws Exception {
        pty.send(bytes);
    }

    @Override
    void instrumentLeaves() {
        pty.close();
    }

    @Test
    void givenMissingPort_whenOpened_thenOneLineWithItsName() throws Exception {
        assertThatThrownBy(() -> new Links(Map.of()).open(LinkAddress.parse("serial:/dev/ttyNONE7"), Ticker.system()))
                .isInstanceOf(LinkException.class)
                .hasMessageContaining("/dev/ttyNONE7")
                .hasMessageContaining("no such port");
    }

    @Test
    void givenPortInUse_whenOpenedAgain_thenRefused() throws Exception {
        assertThatThrownBy(() -> new Links(Map.of()).open(address(), Ticker.system()))
                .isInstanceOf(LinkException.class)
                .hasMessageContaining("another program");
    }

    @Test
    void givenSymbolicLinkMovedToAnotherPort_whenOpenedAgain_thenReadsTheNewOne(@TempDir Path folder) throws Exception {
        Path name = folder.resolve("sensor");
        LinkAddress address = LinkAddress.parse("serial:" + name);
        try (Pty first = new Pty();
                Pty second = new Pty()) {
            first.linkAs(name);
            try (ByteLink link = new Links(Map.of()).open(address, Ticker.system())) {
                first.send("one");
                assertThat(link.read().orElseThrow().toArray()).asString().startsWith("one".substring(0, 1));
            }
            second.linkAs(name);
            try (ByteLink link = new Links(Map.of()).open(address, Ticker.system())) {
                second.send("two");
                assertThat(link.read().orElseThrow().toArray()).asString().startsWith("t");
            }
        }
    }
}
