package draftwitness.link;

import static org.assertj.core.api.Assertions.assertThatThrownBy;

import draftwitness.time.Ticker;
import java.net.InetAddress;
import java.net.ServerSocket;
import java.net.Socket;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class TcpLinkTest extends ByteLinkContract {
    private ServerSocket server;
    private Socket accepted;

    @Override
    void startInstrument() throws Exception {
        server = new ServerSocket(0, 5, InetAddress.getLoopbackAddress());
    }

    @Override
    LinkAddress address() throws Exception {
        return LinkAddress.parse("tcp:127.0.0.1:" + server.getLocalPort());
    }

    private Socket socket() throws Exception {
        if (accepted == null) {
            accepted = server.accept();
        }
        return accepted;
    }

    @Override
    void instrumentSends(byte[] bytes) throws Exception {
        socket().getOutputStream().write(bytes);
    }

    @Override
    void instrumentLeaves() throws Exception {
        socket().close();
        server.close();
    }

    @Test
    void givenNobodyListening_whenOpened_thenRefusedWithItsName() throws Exception {
        int port;
        try (ServerSocket free = new ServerSocket(0, 1, InetAddress.getLoopbackAddress())) {
            port = free.getLocalPort();
        }
        LinkAddress nobody = LinkAddress.parse("tcp:127.0.0.1:" + port);
        assertThatThrownBy(() -> new Links(Map.of()).open(nobody, Ticker.system()))
                .isInstanceOf(LinkException.class)
                .hasMessageContaining("127.0.0.1:" + port)
                .hasMessageContaining("listening");
    }

    @ParameterizedTest
    @ValueSource(strings = {"tcp:host", "tcp:host:0", "tcp:host:99999", "tcp::99", "tcp:host:x"})
    void givenBadAddress_whenOpened_thenToldHowItLooks(String text) throws Exception {
        LinkAddress address = LinkAddress.parse(text);
        assertThatThrownBy(() -> new Links(Map.of()).open(address, Ticker.system()))
                .isInstanceOf(LinkException.class)
                .hasMessageContaining("tcp:HOST:PORT");
    }
}
