package draftwitness.link.ble;

import java.util.HashMap;
import java.util.HashSet;
import java.util.Map;
import java.util.Set;
import java.util.concurrent.locks.ReentrantLock;
import org.jspecify.annotations.Nullable;

/**
 * The one bus connection that all links share: made when the first needs it, closed with the last, made anew after
 * BlueZ or the bus was gone. Any thread.
 */
final class SharedBus {
    private final String address;
    private final ReentrantLock lock = new ReentrantLock();
    private final Map<Bus, Integer> users = new HashMap<>();
    private final Set<String> devices = new HashSet<>();
    private @Nullable Bus current;

    /** @param address of the bus; empty for the system's own */
    SharedBus(String address) {
        this.address = address;
    }

    /** A device's share in the bus, to be given back once. */
    final class Lease implements AutoCloseable {
        private final Bus bus;
        private final String device;
        private boolean closed;

        private Lease(Bus bus, String device) {
            this.bus = bus;
            this.device = device;
        }

        Bus bus() {
            return bus;
        }

        @Override
        public void close() {
            boolean last = false;
            lock.lock();
            try {
                if (closed) {
                    return;
                }
                closed = true;
                devices.remove(device);
                Integer left = users.merge(bus, -1, Integer::sum);
                if (left == 0) {
                    users.remove(bus);
                    last = true;
                    current = current == bus ? null : current;
                }
            } finally {
                lock.unlock();
            }
            if (last) {
                bus.close();
            }
        }
    }

    /**
     * A share for one device.
     *
     * @throws BleException if there is no bus or no BlueZ, or another link has the device
     */
    Lease lease(String device) throws BleException {
        try {
            lock.lockInterruptibly();
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
            throw new BleException("interrupted", e);
        }
        try {
            if (devices.contains(device)) {
                throw new BleException("is a source already; put its other readings on taps of that source");
            }
            Bus bus = current;
            if (bus == null || bus.isLost()) {
                bus = Bus.open(address);
                current = bus;
            }
            users.merge(bus, 1, Integer::sum);
            devices.add(device);
            return new Lease(bus, device);
        } finally {
            lock.unlock();
        }
    }
}
