package draftwitness.link;

import draftwitness.input.InputException;
import draftwitness.reading.Chunk;
import draftwitness.time.Ticker;
import java.io.IOException;
import java.io.InputStream;
import java.net.ConnectException;
import java.net.InetSocketAddress;
import java.net.Socket;
import java.net.SocketOption;
import java.net.SocketTimeoutException;
import java.net.UnknownHostException;
import java.util.Optional;
import java.util.Set;
import jdk.net.ExtendedSocketOptions;

/** A connection to an instrument or serial server that sends its bytes over TCP. */
final class TcpLink implements ByteLink {
    private static final int CONNECT_MILLIS = 5000;

    private final String name;
    private final Socket socket;
    private final InputStream in;
    private final Ticker ticker;
    private final byte[] buffer = new byte[4096];
    private volatile boolean closed;

    private TcpLink(String name, Socket socket, InputStream in, Ticker ticker) {
        this.name = name;
        this.socket = socket;
        this.in = in;
        this.ticker = ticker;
    }

    static void check(LinkAddress address) throws InputException {
        int colon = address.target().lastIndexOf(':');
        if (colon < 1 || portNumber(address.target().substring(colon + 1)) < 0) {
            throw new InputException("'" + address + "' is not tcp:HOST:PORT with a port from 1 to 65535");
        }
    }

    static TcpLink open(LinkAddress address, Ticker ticker) throws LinkException {
        String name = address.toString();
        try {
            check(address);
        } catch (InputException e) {
            throw new LinkException(String.valueOf(e.getMessage()), e);
        }
        int colon = address.target().lastIndexOf(':');
        int port = portNumber(address.target().substring(colon + 1));
        String host = address.target().substring(0, colon).replaceAll("^\\[|]$", "");
        Socket socket = new Socket();
        try {
            socket.connect(new InetSocketAddress(host, port), CONNECT_MILLIS);
            noticeDeadPeer(socket);
            socket.setTcpNoDelay(true);
            return new TcpLink(name, socket, socket.getInputStream(), ticker);
        } catch (IOException e) {
            closeQuietly(socket);
            throw new LinkException(name + ": " + reason(e), e);
        }
    }

    /** A serial server that was switched off says nothing: without this it would be taken for silent for hours. */
    private static void noticeDeadPeer(Socket socket) throws IOException {
        socket.setKeepAlive(true);
        Set<SocketOption<?>> known = socket.supportedOptions();
        if (known.contains(ExtendedSocketOptions.TCP_KEEPIDLE)) {
            socket.setOption(ExtendedSocketOptions.TCP_KEEPIDLE, 10);
            socket.setOption(ExtendedSocketOptions.TCP_KEEPINTERVAL, 5);
            socket.setOption(ExtendedSocketOptions.TCP_KEEPCOUNT, 3);
        }
    }

    private static int portNumber(String text) {
        try {
            int port = Integer.parseInt(text);
            return port >= 1 && port <= 65535 ? port : -1;
        } catch (NumberFormatException e) {
            return -1;
        }
    }

    private static String reason(IOException e) {
        if (e instanceof UnknownHostException) {
            return "no such host";
        }
        if (e instanceof SocketTimeoutException) {
            return "no answer";
        }
        if (e instanceof ConnectException) {
            return "refused; is the other side listening?";
        }
        return String.valueOf(e.getMessage());
    }

    @Override
    public Optional<Chunk> read() throws LinkException {
        try {
            int n = in.read(buffer);
            long arrival = ticker.nanos();
            if (n > 0) {
                return Optional.of(new Chunk(buffer, 0, n, arrival));
            }
            throw new LinkException(name + ": closed by the other side");
        } catch (IOException e) {
            throw new LinkException(name + (closed ? ": closed" : ": " + e.getMessage()), e);
        }
    }

    @Override
    public void write(byte[] bytes) throws LinkException {
        try {
            socket.getOutputStream().write(bytes);
        } catch (IOException e) {
            throw new LinkException(name + ": " + e.getMessage(), e);
        }
    }

    @Override
    public void close() {
        closed = true;
        closeQuietly(socket);
    }

    private static void closeQuietly(Socket socket) {
        try {
            socket.close();
        } catch (IOException e) {
            // Nothing was buffered on our side, and the other side sees the end either way.
            return;
        }
    }
}
