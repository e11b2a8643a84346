package draftwitness.bridge;

import draftwitness.time.Ticker;
import java.util.ArrayDeque;
import java.util.Deque;
import java.util.EnumMap;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.locks.LockSupport;

/**
 * Sends messages to a broker, each at least once and in order, for as long as it takes.
 *
 * <p>How it works: a bounded {@link Outbox} takes what the session gives. The thread {@code bridge} keeps up to
 * {@value #WINDOW} messages under way; one leaves the program's memory only when the broker has confirmed it. When the
 * connection breaks, it is tried again with growing pauses, what was under way goes out again first (a follower passes
 * over cells that it has), and what is kept for late comers is said anew, since a broker may have forgotten it. Only
 * the outbox drops, and counts. When we vanish the broker tells so by the will left with it.
 */
final class MqttPublisher implements MessageSink, AutoCloseable {
    private static final int WINDOW = 64;
    private static final int ACK_SECONDS = 10;
    private static final long POLL_MILLIS = 100;
    private static final long FIRST_PAUSE_MILLIS = 500;
    private static final long LONGEST_PAUSE_MILLIS = 15_000;
    private static final long FAREWELL_NANOS = 10_000_000_000L;

    private final Broker broker;
    private final Site site;
    private final Outbox outbox;
    private final Ticker ticker;
    private final BrokerLink link;
    private final Thread thread = new Thread(this::run, "bridge");
    private final CountDownLatch closing = new CountDownLatch(1);
    private final CountDownLatch connectedOnce = new CountDownLatch(1);
    private final Map<Message.Kind, Message> retained = new EnumMap<>(Message.Kind.class);
    private final Deque<Sent> underWay = new ArrayDeque<>();
    private volatile BridgeState state = new BridgeState(false, "not connected yet", 0, 0, 0);
    private volatile String session = "";
    private long confirmed;
    private long pauseMillis;
    private boolean connected;
    private long saidDropped;

    /** A message that the broker has not confirmed yet. */
    private static final class Sent {
        private final Message message;
        private CompletableFuture<Void> confirmation;

        Sent(Message message, CompletableFuture<Void> confirmation) {
            this.message = message;
            this.confirmation = confirmation;
        }
    }

    MqttPublisher(Broker broker, Site site, String clientId, long capacityBytes, Ticker ticker) throws BridgeException {
        this.broker = broker;
        this.site = site;
        this.outbox = new Outbox(capacityBytes);
        this.ticker = ticker;
        this.link = new BrokerLink(broker, clientId);
        thread.setDaemon(true);
    }

    void start() {
        thread.start();
    }

    /** Waits until the broker was reached for the first time; false if the time ran out first. */
    boolean awaitConnected(long timeout, TimeUnit unit) throws InterruptedException {
        return connectedOnce.await(timeout, unit);
    }

    BridgeState state() {
        BridgeState noted = state;
        return new BridgeState(
                noted.connected(), noted.words(), noted.confirmed(), noted.waiting() + outbox.size(), outbox.dropped());
    }

    @Override
    public void send(Message message) {
        outbox.add(message);
    }

    /** Names the session that the status speaks of. */
    void session(String name) {
        session = name;
    }

    private void run() {
        try {
            long patientUntil = Long.MAX_VALUE;
            long before = -1;
            while (true) {
                if (closing.getCount() == 0 && confirmed != before) {
                    before = confirmed; // as long as it goes on, it is waited for
                    patientUntil = ticker.nanos() + FAREWELL_NANOS;
                }
                boolean allSent = outbox.size() == 0 && underWay.isEmpty();
                if (closing.getCount() == 0 && (allSent || ticker.nanos() > patientUntil)) {
                    break;
                }
                step();
            }
            sayGoodbye();
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
        } finally {
            link.close();
        }
    }

    /**
     * Connects if needed, sends what may be sent, and sees to confirmations; comes back within about a tenth of a
     * second.
     */
    private void step() throws InterruptedException {
        try {
            if (!connected) {
                connect();
            }
            fill();
            confirm();
            tellDropped();
            note(true, "connected");
        } catch (BridgeException e) {
            connected = false;
            link.close();
            note(false, String.valueOf(e.getMessage()));
            pauseMillis = Math.min(LONGEST_PAUSE_MILLIS, Math.max(FIRST_PAUSE_MILLIS, pauseMillis * 2));
            rest(pauseMillis);
        }
    }

    /** Waits; a little when leaving too, so that a broker that is away is not asked without pause. */
    private void rest(long millis) throws InterruptedException {
        if (closing.await(millis, TimeUnit.MILLISECONDS)) {
            LockSupport.parkNanos(TimeUnit.MILLISECONDS.toNanos(FIRST_PAUSE_MILLIS));
        }
    }

    private void connect() throws BridgeException, InterruptedException {
        byte[] offline =
                BridgeJson.status(session, false, false, outbox.dropped()).bytes();
        link.connect(new BrokerLink.Will(site.topic(Message.Kind.STATUS), offline), 0);
        connected = true;
        connectedOnce.countDown();
        say(BridgeJson.status(session, true, false, outbox.dropped()));
        for (Message message : retained.values()) {
            say(message);
        }
        for (Sent sent : underWay) {
            sent.confirmation = publish(sent.message);
        }
    }

    /** Sends something that is kept at the broker, and waits for it. */
    private void say(Message message) throws BridgeException, InterruptedException {
        Void unused = link.await("publish", publish(message), ACK_SECONDS);
    }

    private CompletableFuture<Void> publish(Message message) {
        return link.publish(
                site.topic(message.kind()), message.bytes(), message.kind().isRetained());
    }

    private void fill() throws InterruptedException {
        while (underWay.size() < WINDOW) {
            Optional<Message> next = outbox.poll(underWay.isEmpty() ? POLL_MILLIS : 0, TimeUnit.MILLISECONDS);
            if (next.isEmpty()) {
                return;
            }
            Message message = next.get();
            if (message.kind().isRetained()) {
                retained.put(message.kind(), message);
            }
            underWay.add(new Sent(message, publish(message)));
        }
    }

    /** Waits for the oldest, then takes all that are confirmed already. */
    private void confirm() throws BridgeException, InterruptedException {
        boolean first = true;
        while (!underWay.isEmpty() && (first || underWay.element().confirmation.isDone())) {
            Void unused = link.await("publish", underWay.element().confirmation, ACK_SECONDS);
            underWay.remove();
            confirmed++;
            pauseMillis = 0; // only what gets through shows that the other side is well again
            first = false;
        }
    }

    private void tellDropped() throws BridgeException, InterruptedException {
        long dropped = outbox.dropped();
        if (dropped != saidDropped) {
            say(BridgeJson.status(session, true, false, dropped));
            saidDropped = dropped;
        }
    }

    private void note(boolean up, String words) {
        state = new BridgeState(up, words, confirmed, underWay.size(), 0);
    }

    private void sayGoodbye() throws InterruptedException {
        try {
            if (connected) {
                boolean all = underWay.isEmpty() && outbox.size() == 0;
                say(BridgeJson.status(session, false, all, outbox.dropped()));
                link.disconnect();
            }
            note(false, "closed");
        } catch (BridgeException e) {
            note(false, String.valueOf(e.getMessage()));
        }
    }

    /**
     * Sends what still waits as long as that goes on, gives up after ten seconds of nothing, says goodbye, and ends.
     */
    @Override
    public void close() {
        closing.countDown();
        try {
            thread.join();
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
        }
    }

    @Override
    public String toString() {
        return "bridge to " + broker;
    }
}
