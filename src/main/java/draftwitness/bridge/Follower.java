package draftwitness.bridge;

import draftwitness.reading.SessionHeader;
import draftwitness.reading.Slice;
import draftwitness.time.Ticker;
import java.util.Optional;
import java.util.concurrent.BlockingQueue;
import java.util.concurrent.LinkedBlockingQueue;
import java.util.concurrent.TimeUnit;
import org.jspecify.annotations.Nullable;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/**
 * Follows a site at a broker: its session's cells as they come, each once and in order, with the very times and counts
 * that were read there.
 *
 * <p>While the connection is away the broker keeps what comes, as far as it is set to; {@link #next} connects again.
 * One owner thread for {@link #next}; {@link #close} from any.
 */
public final class Follower implements AutoCloseable {
    /** Cells that may wait for whoever follows: ten minutes. */
    private static final int ROOM = 6_000;

    private static final long KEPT_AT_BROKER_SECONDS = 3_600;
    private static final long RETRY_MILLIS = 1_000;
    private static final Logger LOG = LoggerFactory.getLogger(Follower.class);

    private final Broker broker;
    private final Site site;
    private final BrokerLink link;
    private final BlockingQueue<JsonTree> incoming = new LinkedBlockingQueue<>(ROOM);
    private volatile boolean overflown;
    private volatile boolean closed;
    private boolean ended;
    private String session = "";
    private @Nullable SessionHeader header;
    private @Nullable Slice first;
    private long lastCell = Long.MIN_VALUE;

    private Follower(Broker broker, Site site, String clientId) throws BridgeException {
        this.broker = broker;
        this.site = site;
        this.link = new BrokerLink(broker, clientId);
        link.receive(this::take);
    }

    /**
     * Connects and waits until the site's session and its first cell are there.
     *
     * @param clientId unique at the broker
     * @throws BridgeException if the broker is not there, or nobody speaks for the site within the time
     */
    public static Follower follow(Broker broker, Site site, String clientId, int seconds, Ticker ticker)
            throws BridgeException, InterruptedException {
        Follower follower = new Follower(broker, site, clientId);
        try {
            follower.connect();
            long until = ticker.nanos() + TimeUnit.SECONDS.toNanos(seconds);
            while (follower.first == null) {
                long left = until - ticker.nanos();
                if (left <= 0) {
                    throw new BridgeException(broker + ": nobody speaks for the site " + site.name() + " there (waited "
                            + seconds + " s)");
                }
                follower.first = follower.await(left);
            }
            return follower;
        } catch (BridgeException | InterruptedException | RuntimeException e) {
            follower.close();
            throw e;
        }
    }

    private void connect() throws BridgeException, InterruptedException {
        link.connect(null, KEPT_AT_BROKER_SECONDS);
        link.subscribe(site.allTopics());
    }

    /** On the library's thread. */
    private void take(String topic, byte[] payload) {
        boolean wanted = topic.equals(site.topic(Message.Kind.READINGS))
                || topic.equals(site.topic(Message.Kind.SESSION))
                || topic.equals(site.topic(Message.Kind.STATUS));
        if (wanted) {
            Optional<JsonTree> json = JsonTree.parse(payload);
            if (json.isPresent() && !incoming.offer(json.get())) {
                overflown = true;
            }
        }
    }

    /** What the session is made of, as it was published; links and drivers stay at home. */
    public SessionHeader header() {
        SessionHeader known = header;
        if (known == null) {
            throw new IllegalStateException("asked before the session was known");
        }
        return known;
    }

    /** The first cell that was received. */
    public long firstCell() {
        Slice known = first;
        if (known == null) {
            throw new IllegalStateException("asked before the first cell was there");
        }
        return known.index();
    }

    /**
     * Waits for the next cell.
     *
     * @return empty when the session ended there in good order, or this was closed
     * @throws BridgeException if cells were lost because nobody took them, or another session began there
     */
    public Optional<Slice> next() throws BridgeException, InterruptedException {
        Slice waiting = first;
        if (waiting != null && lastCell < waiting.index()) {
            lastCell = waiting.index();
            return Optional.of(waiting);
        }
        while (!closed && !ended) {
            Slice slice = await(TimeUnit.MILLISECONDS.toNanos(RETRY_MILLIS));
            if (slice != null && slice.index() > lastCell) {
                lastCell = slice.index();
                return Optional.of(slice);
            }
        }
        return Optional.empty();
    }

    private @Nullable Slice await(long nanos) throws BridgeException, InterruptedException {
        if (overflown) {
            throw new BridgeException(broker + ": fell more than ten minutes behind, and readings were lost");
        }
        JsonTree json = incoming.poll(nanos, TimeUnit.NANOSECONDS);
        if (json == null) {
            reconnect();
            return null;
        }
        if (json.text("type").equals(Message.Kind.READINGS.word())) {
            SessionHeader known = header;
            return known == null || !json.text("session").equals(session)
                    ? null
                    : BridgeReader.readings(json, known).orElse(null);
        }
        if (json.text("type").equals(Message.Kind.SESSION.word())) {
            meet(json);
        } else if (json.text("session").equals(session) && json.text("ended").equals("true")) {
            ended = header != null && first != null;
        }
        return null;
    }

    private void meet(JsonTree json) throws BridgeException {
        Optional<SessionHeader> read = BridgeReader.session(json);
        if (read.isEmpty()) {
            throw new BridgeException(
                    broker + ": the site " + site.name() + " speaks in a way that this version does not understand");
        }
        if (first != null && !json.text("session").equals(session)) {
            throw new BridgeException(broker + ": " + site.name() + " began a new session; follow it anew");
        }
        session = json.text("session");
        header = read.get();
    }

    private void reconnect() throws InterruptedException {
        if (closed || link.isConnected()) {
            return;
        }
        try {
            connect();
        } catch (BridgeException e) {
            LOG.debug("following {} at {} again", site.name(), broker, e); // tried anew with the next wait
        }
    }

    /** Leaves; a waiting {@link #next} comes back within a second. */
    @Override
    public void close() {
        closed = true;
        link.close();
    }
}
