package draftwitness.link;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import draftwitness.reading.Chunk;
import draftwitness.testkit.Peers;
import draftwitness.testkit.Pty;
import draftwitness.time.Ticker;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.concurrent.ConcurrentHashMap;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.atomic.AtomicBoolean;
import org.junit.jupiter.api.Test;

/** Bytes come over a real pseudo-terminal; the lines are a fake, since pseudo-terminals have none. */
class LineWatchLinkTest extends ByteLinkContract {
    private final Set<ControlLine> asserted = ConcurrentHashMap.newKeySet();
    private final AtomicBoolean broken = new AtomicBoolean();
    private Pty pty;

    private boolean isAsserted(ControlLine line) throws LinkException {
        if (broken.get()) {
            throw new LinkException("the lines cannot be read");
        }
        return asserted.contains(line);
    }

    @Override
    void startInstrument() throws Exception {
        Peers.needPty();
        pty = new Pty();
    }

    @Override
    LinkAddress address() throws Exception {
        return LinkAddress.parse("serial:" + pty.path() + "?baud=115200");
    }

    /** No line is watched in the contract's tests: what they ask is about bytes. */
    @Override
    ByteLink openLink() throws Exception {
        return watching();
    }

    private ByteLink watching(ControlLine... lines) throws Exception {
        ByteLink bytes = new Links(Map.of()).open(address(), Ticker.system());
        return new LineWatchLink(address().target(), bytes, List.of(lines), this::isAsserted, Ticker.system());
    }

    @Override
    void instrumentSends(byte[] bytes) throws Exception {
        pty.send(bytes);
    }

    @Override
    void instrumentLeaves() {
        pty.close();
    }

    private static String next(ByteLink link) throws LinkException {
        Chunk chunk = link.read().orElseThrow();
        return chunk.endpoint() + Arrays.toString(chunk.toArray());
    }

    @Test
    void givenOpenedLink_whenLinesChange_thenFirstTheirStatesAndThenEachChange() throws Exception {
        instrumentLeaves();
        pty = new Pty();
        asserted.add(ControlLine.DSR);
        try (ByteLink link = watching(ControlLine.CTS, ControlLine.DSR)) {
            assertThat(List.of(next(link), next(link))).containsExactly("CTS[0]", "DSR[1]");
            asserted.add(ControlLine.CTS);
            assertThat(next(link)).isEqualTo("CTS[1]");
            asserted.clear();
            assertThat(new HashSet<>(List.of(next(link), next(link)))).containsExactlyInAnyOrder("CTS[0]", "DSR[0]");
        }
    }

    @Test
    void givenBytesAndChanges_whenRead_thenNeitherHidesTheOther() throws Exception {
        instrumentLeaves();
        pty = new Pty();
        try (ByteLink link = watching(ControlLine.CTS)) {
            assertThat(next(link)).isEqualTo("CTS[0]");
            StringBuilder bytes = new StringBuilder();
            List<String> changes = new ArrayList<>();
            for (int i = 0; i < 50; i++) {
                pty.send("x");
                boolean up = i % 2 == 0;
                if (up) {
                    asserted.add(ControlLine.CTS);
                } else {
                    asserted.clear();
                }
                while (changes.size() <= i || bytes.length() <= i) {
                    Chunk chunk = link.read().orElseThrow();
                    if (chunk.endpoint().isEmpty()) {
                        bytes.append("x".repeat(chunk.size()));
                    } else {
                        changes.add(chunk.endpoint() + chunk.at(0));
                    }
                }
                assertThat(changes.get(i)).isEqualTo(up ? "CTS1" : "CTS0");
            }
            assertThat(bytes).hasSize(50);
        }
    }

    @Test
    void givenUnplugged_whenTheLinesSeemToDrop_thenNoContactOpensForThat() throws Exception {
        instrumentLeaves();
        for (int round = 0; round < 20; round++) {
            pty = new Pty();
            asserted.add(ControlLine.CTS);
            try (ByteLink link = watching(ControlLine.CTS)) {
                assertThat(next(link)).isEqualTo("CTS[1]");
                CountDownLatch go = new CountDownLatch(1);
                Thread unplug = new Thread(() -> {
                    go.countDown();
                    pty.close();
                    asserted.clear(); // as the library shows the lines of a port that is gone
                });
                unplug.start();
                go.await();
                assertThatThrownBy(link::read).isInstanceOf(LinkException.class).hasMessageContaining("unplugged");
                unplug.join();
            }
        }
    }

    @Test
    void givenLinesThatCannotBeReadAnyMore_whenRead_thenItFails() throws Exception {
        instrumentLeaves();
        pty = new Pty();
        try (ByteLink link = watching(ControlLine.CTS)) {
            assertThat(next(link)).isEqualTo("CTS[0]");
            broken.set(true);
            assertThatThrownBy(link::read).hasMessageContaining("cannot be read");
        }
    }

    @Test
    void givenPortWithoutControlLines_whenOpenedForContacts_thenToldAndNoOpenContactIsMadeUp() throws Exception {
        instrumentLeaves();
        pty = new Pty(); // pseudo-terminals have none
        LinkAddress address = address().watching(Set.of("CTS", "DCD"));
        assertThat(address.toString()).endsWith("lines=cts,dcd");
        assertThatThrownBy(() -> new Links(Map.of()).open(address, Ticker.system()))
                .isInstanceOf(LinkException.class)
                .hasMessageContaining("has no control lines");
        try (ByteLink again = new Links(Map.of()).open(address(), Ticker.system())) {
            assertThat(again).isNotNull(); // and the port was let go
        }
    }
}
