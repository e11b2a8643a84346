package draftwitness.link.ble;

import draftwitness.link.ByteLink;
import draftwitness.link.LinkException;
import draftwitness.link.LinkNeeds;
import draftwitness.reading.Chunk;
import draftwitness.time.Ticker;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.concurrent.atomic.AtomicBoolean;
import org.jspecify.annotations.Nullable;

/**
 * A connected device. One thread reads: it also reads the characteristics that do not send by themselves, and watches
 * for silence. {@link #close} may come from any thread.
 *
 * <p>Signals are only hints. A value goes straight into the inbox; anything else that is signalled about the device
 * makes the reader ask BlueZ how things stand. A link never mends itself: whatever breaks the stream of values ends it,
 * and a new one is opened, so that nobody joins the half of a message from before with one from after.
 */
final class BleLink implements ByteLink, Bus.Listener {
    private static final long RESOLVE_LOOK_NANOS = 250_000_000;
    private static final long LAST_WORDS_NANOS = 100_000_000;

    private final String name;
    private final SharedBus.Lease lease;
    private final Bus bus;
    private final Ticker ticker;
    private final Patience patience;
    private final Silence silence;
    private final Inbox inbox;
    private final AtomicBoolean closed = new AtomicBoolean();
    private final List<Poll> polls = new ArrayList<>();
    private final Set<String> sending = new HashSet<>();
    private volatile Map<String, String> endpoints = Map.of();
    private volatile Finder.@Nullable Place place;
    private long lastValueNanos;
    private boolean batteryWanted;
    private int batteryPercent = -1;
    private @Nullable BleException ending;

    /** A characteristic that is read again and again. */
    private static final class Poll {
        private final String path;
        private final String endpoint;
        private final long everyNanos;
        private long dueNanos;

        Poll(String path, String endpoint, long everyNanos, long dueNanos) {
            this.path = path;
            this.endpoint = endpoint;
            this.everyNanos = everyNanos;
            this.dueNanos = dueNanos;
        }
    }

    BleLink(String name, SharedBus.Lease lease, Ticker ticker, Patience patience, Silence silence) {
        this.name = name;
        this.lease = lease;
        this.bus = lease.bus();
        this.ticker = ticker;
        this.patience = patience;
        this.silence = silence;
        this.inbox = new Inbox(ticker);
    }

    /** Finds the device, connects, and lets it send. Once, before anything else. */
    void open(BleAddress address, LinkNeeds needs) throws BleException {
        bus.add(this);
        Finder.Place found = new Finder(bus, ticker, patience).find(address, inbox);
        place = found;
        try {
            Object unused = Bus.await(
                    bus.connect(found.devicePath()), patience.connect().toNanos(), "a connection");
        } catch (BleException e) {
            if (!Refusals.isConnecting(e)) {
                throw e;
            }
        }
        BlueZ now = resolved(found);
        Choice choice = Choice.of(needs, now, found.devicePath());
        describe(choice);
        subscribe(choice);
        batteryWanted = needs.battery();
        watchBattery(now, found, choice);
        lastValueNanos = ticker.nanos();
    }

    private BlueZ resolved(Finder.Place found) throws BleException {
        long end = ticker.nanos() + patience.resolve().toNanos();
        while (true) {
            BlueZ now = bus.look(callNanos());
            boolean there = now.devices(found.adapter().path()).stream()
                    .anyMatch(d -> d.path().equals(found.devicePath()) && d.resolved());
            if (there) {
                return now;
            }
            if (ticker.nanos() >= end) {
                throw new BleException("connected, but did not list its services; try again nearer to it");
            }
            inbox.awaitNudge(RESOLVE_LOOK_NANOS);
        }
    }

    private long callNanos() {
        return patience.call().toNanos();
    }

    /** The formats go first, so that the first value can be read. */
    private void describe(Choice choice) throws BleException {
        for (Choice.Taken t : choice.taken()) {
            if (t.format().isPresent()) {
                byte[] format =
                        Bus.awaitBytes(bus.readDescriptor(t.format().get()), callNanos(), "the format of " + uuid(t));
                inbox.put(uuid(t) + Choice.FORMAT_ENDPOINT, format);
            }
        }
    }

    private static String uuid(Choice.Taken taken) {
        return taken.characteristic().uuid();
    }

    private void subscribe(Choice choice) throws BleException {
        Map<String, String> routes = new HashMap<>();
        for (Choice.Taken t : choice.taken()) {
            if (t.pollNanos() == 0) {
                routes.put(t.characteristic().path(), uuid(t));
                sending.add(uuid(t));
            } else {
                polls.add(new Poll(t.characteristic().path(), uuid(t), t.pollNanos(), ticker.nanos()));
            }
        }
        endpoints = Map.copyOf(routes);
        for (Choice.Taken t : choice.taken()) {
            if (t.pollNanos() == 0) {
                Object unused =
                        Bus.await(bus.startNotify(t.characteristic().path()), callNanos(), "the sending of " + uuid(t));
            }
        }
    }

    /** BlueZ mostly keeps the battery level by itself; where it does not, the characteristic is read now and then. */
    private void watchBattery(BlueZ now, Finder.Place here, Choice choice) {
        noteBattery(now, here);
        BlueZ.Characteristic battery = choice.battery().orElse(null);
        if (battery != null && battery.canBeRead()) {
            polls.add(
                    new Poll(battery.path(), Choice.BATTERY, patience.battery().toNanos(), ticker.nanos()));
        }
    }

    private void noteBattery(BlueZ now, Finder.Place here) {
        int percent = now.battery(here.devicePath()).orElse(-1);
        if (batteryWanted && percent >= 0 && percent != batteryPercent) {
            batteryPercent = percent;
            inbox.put(Choice.BATTERY, new byte[] {(byte) percent});
        }
    }

    @Override
    public void value(String path, byte[] value) {
        String endpoint = endpoints.get(path);
        if (endpoint != null) {
            inbox.put(endpoint, value);
        }
    }

    @Override
    public void changed(String path) {
        Finder.Place here = place;
        if (here == null
                || path.startsWith(here.devicePath())
                || path.equals(here.adapter().path())
                || path.equals("/")) {
            inbox.nudge();
        }
    }

    @Override
    public Optional<Chunk> read() throws LinkException {
        try {
            while (!inbox.isClosed()) {
                Chunk chunk = inbox.await(waitNanos());
                if (chunk == null) {
                    attendUntilTheEnd();
                } else if (chunk.size() > 0) {
                    noteValue(chunk);
                    return Optional.of(chunk);
                }
            }
            throw new BleException("closed");
        } catch (BleException e) {
            throw new LinkException(name + ": " + (inbox.isClosed() ? "closed" : e.reason()), e);
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
            throw new LinkException(name + ": interrupted", e);
        }
    }

    private long waitNanos() {
        return ending != null ? LAST_WORDS_NANOS : ticker.realNanos(Math.max(0, nextDueNanos() - ticker.nanos()));
    }

    /**
     * Attends; a reason to end is held back a little, for BlueZ's answer that all is over may overtake the last values.
     */
    private void attendUntilTheEnd() throws BleException {
        if (ending == null) {
            try {
                attend();
            } catch (BleException e) {
                ending = e;
            }
        } else if (!inbox.takeNudge()) {
            throw ending;
        }
    }

    private void noteValue(Chunk chunk) {
        if (sending.contains(chunk.endpoint())) {
            lastValueNanos = chunk.arrivalNanos();
            silence.broken();
        }
    }

    private long nextDueNanos() {
        long due = sending.isEmpty() ? Long.MAX_VALUE : lastValueNanos + silence.limitNanos();
        for (Poll poll : polls) {
            due = Math.min(due, poll.dueNanos);
        }
        return due;
    }

    private void attend() throws BleException {
        if (inbox.takeNudge()) {
            checkStillThere();
        }
        if (inbox.lost() > 0) {
            throw new BleException("sent faster than it could be taken, " + inbox.lost() + " values were lost");
        }
        long now = ticker.nanos();
        for (Poll poll : polls) {
            if (poll.dueNanos <= now) {
                poll(poll);
            }
        }
        if (!sending.isEmpty() && now - lastValueNanos >= silence.limitNanos()) {
            String seconds = String.valueOf(Math.round(silence.limitNanos() / 1e9));
            silence.lasted();
            throw new BleException("sent nothing for " + seconds + " s; connecting again");
        }
    }

    private void poll(Poll poll) throws BleException {
        try {
            byte[] value = Bus.awaitBytes(bus.readCharacteristic(poll.path), callNanos(), "reading " + poll.endpoint);
            inbox.put(poll.endpoint, value);
        } catch (BleException e) {
            // The battery is worth knowing, and not worth losing the readings for.
            if (!poll.endpoint.equals(Choice.BATTERY)) {
                throw e;
            }
        }
        poll.dueNanos = Math.max(poll.dueNanos + poll.everyNanos, ticker.nanos());
    }

    private void checkStillThere() throws BleException {
        Finder.Place here = place;
        if (here == null) {
            return;
        }
        if (bus.isLost()) {
            throw new BleException("BlueZ has stopped; it is tried again");
        }
        BlueZ now = bus.look(callNanos());
        BlueZ.Adapter adapter = now.adapter(here.adapter().path())
                .orElseThrow(() -> new BleException("adapter " + here.adapter().name() + " is gone; plug it in again"));
        if (!adapter.powered()) {
            throw Finder.off(adapter);
        }
        boolean connected =
                now.devices(adapter.path()).stream().anyMatch(d -> d.path().equals(here.devicePath()) && d.resolved());
        if (!connected) {
            throw new BleException("disconnected; is it switched on and in reach?");
        }
        noteBattery(now, here);
        Set<String> paths = new HashSet<>();
        now.characteristics(here.devicePath()).forEach(c -> paths.add(c.path()));
        if (!paths.containsAll(endpoints.keySet())) {
            throw new BleException("offers other services than before; connecting again");
        }
    }

    @Override
    public void write(byte[] bytes) throws LinkException {
        throw new LinkException(name + (inbox.isClosed() ? ": closed" : ": nothing can be sent to it"));
    }

    @Override
    public void close() {
        if (!closed.compareAndSet(false, true)) {
            return;
        }
        inbox.close();
        bus.remove(this);
        Finder.Place here = place;
        if (here != null && !bus.isLost()) {
            bus.leave(here.devicePath());
        }
        lease.close();
    }
}
