package draftwitness.bridge;

import java.io.IOException;
import java.net.InetSocketAddress;
import java.net.ServerSocket;
import java.net.Socket;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.concurrent.CopyOnWriteArrayList;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/**
 * Serves lines of JSON to whoever connects to a TCP port; what they send is never read. A late comer gets the session
 * first. Any thread.
 */
final class LineServer implements MessageSink, AutoCloseable {
    private static final int MOST_READERS = 32;
    private static final Logger LOG = LoggerFactory.getLogger(LineServer.class);

    private final ServerSocket server;
    private final long capacityBytes;
    private final Thread thread;
    private final List<Reader> readers = new CopyOnWriteArrayList<>();
    private final Map<Message.Kind, Message> retained = new EnumMap<>(Message.Kind.class);
    private volatile boolean closed;

    /** Somebody who reads. */
    private record Reader(Socket socket, StreamSink sink) {
        void close() {
            try {
                socket.close();
            } catch (IOException e) {
                LOG.debug("closing a reader's socket", e); // it is gone either way
            }
        }
    }

    /**
     * Listens from now on.
     *
     * @param address the loopback address unless somebody asked for more
     * @throws BridgeException if the port cannot be had
     */
    LineServer(InetSocketAddress address, long capacityBytes) throws BridgeException {
        this.capacityBytes = capacityBytes;
        try {
            server = new ServerSocket();
            server.setReuseAddress(true);
            server.bind(address);
        } catch (IOException e) {
            throw new BridgeException(
                    "cannot listen on " + address.getHostString() + ":" + address.getPort() + " (" + e.getMessage()
                            + ")",
                    e);
        }
        thread = new Thread(this::accept, "ndjson-" + server.getLocalPort());
        thread.setDaemon(true);
    }

    void start() {
        thread.start();
    }

    /** The port, also when any was asked for. */
    int port() {
        return server.getLocalPort();
    }

    private void accept() {
        while (!closed) {
            try {
                welcome(server.accept());
            } catch (IOException e) {
                if (!closed) {
                    LOG.warn("a reader could not be let in", e);
                }
            }
        }
    }

    private void welcome(Socket socket) throws IOException {
        if (readers.size() >= MOST_READERS) {
            socket.close();
            return;
        }
        socket.setTcpNoDelay(true);
        Reader[] self = new Reader[1];
        StreamSink sink = new StreamSink(
                "ndjson-" + socket.getPort(), socket.getOutputStream(), capacityBytes, () -> leave(self[0]));
        Reader reader = new Reader(socket, sink);
        self[0] = reader;
        synchronized (retained) {
            retained.values().forEach(sink::send);
            readers.add(reader);
        }
        sink.start();
    }

    private void leave(Reader reader) {
        readers.remove(reader);
        reader.close();
    }

    @Override
    public void send(Message message) {
        synchronized (retained) {
            if (message.kind().isRetained()) {
                retained.put(message.kind(), message);
            }
            readers.forEach(r -> r.sink().send(message));
        }
    }

    BridgeState state() {
        long dropped =
                readers.stream().mapToLong(r -> r.sink().state().dropped()).sum();
        int waiting = readers.stream().mapToInt(r -> r.sink().state().waiting()).sum();
        long written =
                readers.stream().mapToLong(r -> r.sink().state().confirmed()).sum();
        return new BridgeState(!readers.isEmpty(), readers.size() + " reading", written, waiting, dropped);
    }

    @Override
    public void close() {
        closed = true;
        try {
            server.close();
        } catch (IOException e) {
            LOG.debug("closing the listening socket", e); // the port is free when the program ends
        }
        for (Reader reader : readers) {
            reader.sink().close();
            reader.close();
        }
    }
}
