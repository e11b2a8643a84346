package draftwitness.bridge;

import draftwitness.reading.SessionHeader;
import draftwitness.reading.SessionListener;
import draftwitness.reading.Slice;
import draftwitness.setup.Setup;
import draftwitness.time.Ticker;
import java.io.OutputStream;
import java.net.InetSocketAddress;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.TimeUnit;
import org.jspecify.annotations.Nullable;

/**
 * A session handed on to other programs as it goes by. Give it to a session as one more listener after its destinations
 * were added; the session's thread never waits for them. Losses are counted ({@link #states}), never silent.
 */
public final class Bridge implements SessionListener, AutoCloseable {
    /** Room for what waits for one destination, unless told otherwise: at four channels of 50 Hz about an hour. */
    public static final long USUAL_ROOM_BYTES = 32_000_000;

    private final SessionTeller teller;
    private final long roomBytes;
    private final List<MessageSink> sinks = new ArrayList<>();
    private @Nullable MqttPublisher publisher;
    private @Nullable LineServer server;
    private final List<StreamSink> streams = new ArrayList<>();

    /**
     * A bridge to nowhere yet.
     *
     * @param setup what is known of the appliance; phases and episodes depend on it
     * @param software name and version of the program, for the messages
     * @param roomBytes room for what waits, for each destination
     */
    public Bridge(Setup setup, String software, long roomBytes) {
        this.roomBytes = roomBytes;
        this.teller = new SessionTeller(setup, software, m -> sinks.forEach(s -> s.send(m)));
    }

    /**
     * Adds a broker and begins to connect; goes on trying for as long as it takes.
     *
     * @param clientId unique at the broker
     * @throws BridgeException if the certificates cannot be read
     */
    public void toBroker(Broker broker, Site site, String clientId, Ticker ticker) throws BridgeException {
        MqttPublisher made = new MqttPublisher(broker, site, clientId, roomBytes, ticker);
        publisher = made;
        sinks.add(made);
        made.start();
    }

    /** Waits until the broker was reached for the first time; false if the time ran out first, or there is none. */
    public boolean awaitBroker(long timeout, TimeUnit unit) throws InterruptedException {
        return publisher != null && publisher.awaitConnected(timeout, unit);
    }

    /** Adds a stream that gets lines of JSON; it stays the caller's to close, after this. */
    public void toStream(OutputStream out) {
        StreamSink made = new StreamSink("ndjson", out, roomBytes, () -> {});
        streams.add(made);
        sinks.add(made);
        made.start();
    }

    /**
     * Adds a TCP port that serves lines of JSON.
     *
     * @return the port, also when 0 asked for any
     * @throws BridgeException if it cannot be had
     */
    public int listen(InetSocketAddress address) throws BridgeException {
        LineServer made = new LineServer(address, roomBytes);
        server = made;
        sinks.add(made);
        made.start();
        return made.port();
    }

    @Override
    public void begin(SessionHeader header) {
        teller.begin(header);
        if (publisher != null) {
            publisher.session(teller.session());
        }
    }

    @Override
    public void slice(Slice slice) {
        teller.slice(slice);
    }

    @Override
    public void end() {
        teller.end();
    }

    /** How each destination is doing, in the order added: broker, streams, port. Any thread. */
    public List<BridgeState> states() {
        List<BridgeState> all = new ArrayList<>();
        if (publisher != null) {
            all.add(publisher.state());
        }
        streams.forEach(s -> all.add(s.state()));
        if (server != null) {
            all.add(server.state());
        }
        return all;
    }

    @Override
    public void close() {
        finish();
    }

    /** Sends what still waits, for some seconds at most each, and leaves; {@link #states} tells what came of it. */
    public void finish() {
        if (publisher != null) {
            publisher.close();
        }
        streams.forEach(StreamSink::close);
        if (server != null) {
            server.close();
        }
    }
}
