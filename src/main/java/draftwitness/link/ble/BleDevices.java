package draftwitness.link.ble;

import draftwitness.link.ble.BlueZ.Adapter;
import java.time.Duration;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.OptionalInt;
import java.util.Set;
import java.util.concurrent.ConcurrentHashMap;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.TimeUnit;

/** Looks for Bluetooth low energy devices in reach. Any thread; waits for the time given. */
public final class BleDevices {
    private final String busAddress;

    /** Devices that BlueZ on the system's bus can hear. */
    public BleDevices() {
        this("");
    }

    /** @param busAddress of another bus than the system's */
    BleDevices(String busAddress) {
        this.busAddress = busAddress;
    }

    /**
     * One device.
     *
     * @param address what {@code ble:} takes
     * @param adapter which adapter knows it
     * @param name what it calls itself; may be empty
     * @param rssi strength of its signal in dBm, if known
     * @param services full UUIDs of the services that it announces
     * @param heard whether it was heard or connected just now; else it is known from earlier
     */
    public record Found(
            String address, String adapter, String name, OptionalInt rssi, List<String> services, boolean heard) {
        public Found {
            services = List.copyOf(services);
        }
    }

    /**
     * What a search brought.
     *
     * @param devices those heard first, the strongest first
     * @param problem why nothing could be looked for, in one line; empty if all went well
     */
    public record Result(List<Found> devices, String problem) {
        public Result {
            devices = List.copyOf(devices);
        }
    }

    /** Remembers who was heard. */
    private static final class Ears implements Bus.Listener {
        private final Set<String> heard = ConcurrentHashMap.newKeySet();

        @Override
        public void value(String path, byte[] value) {}

        @Override
        public void changed(String path) {
            heard.add(path);
        }
    }

    /** Listens on all adapters for so long. Nothing is connected or written. */
    public Result scan(Duration duration) {
        try {
            Platform.check();
            try (Bus bus = Bus.open(busAddress)) {
                return new Result(listen(bus, duration), "");
            }
        } catch (BleException e) {
            return new Result(List.of(), "Bluetooth: " + e.reason());
        }
    }

    private static List<Found> listen(Bus bus, Duration duration) throws BleException {
        long callNanos = Patience.USUAL.call().toNanos();
        List<Adapter> adapters = Finder.adapters(bus.look(callNanos), "");
        Ears ears = new Ears();
        bus.add(ears);
        for (Adapter adapter : adapters) {
            Object unused = Bus.await(bus.startDiscovery(adapter.path()), callNanos, "the search for devices");
        }
        try {
            boolean unused = new CountDownLatch(1).await(duration.toNanos(), TimeUnit.NANOSECONDS);
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt(); // nobody waits for the list any more; hanging up ends the search
            return List.of();
        }
        BlueZ now = bus.look(callNanos); // before the end of the search, with which BlueZ forgets the strengths
        for (Adapter adapter : adapters) {
            Object unused = Bus.await(bus.stopDiscovery(adapter.path()), callNanos, "the end of the search");
        }
        return list(now, adapters, ears.heard);
    }

    private static List<Found> list(BlueZ now, List<Adapter> adapters, Set<String> heard) {
        List<Found> found = new ArrayList<>();
        for (Adapter adapter : adapters) {
            for (BlueZ.Device d : now.devices(adapter.path())) {
                boolean here = heard.contains(d.path()) || d.rssi().isPresent() || d.connected();
                found.add(new Found(d.address(), adapter.name(), d.name(), d.rssi(), List.copyOf(d.services()), here));
            }
        }
        found.sort(Comparator.comparing(Found::heard)
                .reversed()
                .thenComparing(f -> -f.rssi().orElse(Integer.MIN_VALUE + 1))
                .thenComparing(Found::address));
        return found;
    }
}
