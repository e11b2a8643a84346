package draftwitness.link.ble;

import draftwitness.time.Ticker;
import java.util.List;
import java.util.concurrent.CompletableFuture;

/** Finds a device: among those that BlueZ knows, else by listening for it. One thread; waits. */
final class Finder {
    private static final long LOOK_AGAIN_NANOS = 250_000_000;

    private final Bus bus;
    private final Ticker ticker;
    private final Patience patience;

    Finder(Bus bus, Ticker ticker, Patience patience) {
        this.bus = bus;
        this.ticker = ticker;
        this.patience = patience;
    }

    /** Where a device is. */
    record Place(BlueZ.Adapter adapter, String devicePath) {}

    /** The adapters that may be used, all switched on. */
    static List<BlueZ.Adapter> adapters(BlueZ now, String wanted) throws BleException {
        List<BlueZ.Adapter> all = now.adapters();
        if (all.isEmpty()) {
            throw new BleException("no Bluetooth adapter found; plug one in");
        }
        List<BlueZ.Adapter> meant = all.stream()
                .filter(a -> wanted.isEmpty() || a.name().equals(wanted))
                .toList();
        if (meant.isEmpty()) {
            throw new BleException("no adapter " + wanted + "; there is "
                    + String.join(" ", all.stream().map(BlueZ.Adapter::name).toList()));
        }
        List<BlueZ.Adapter> on = meant.stream().filter(BlueZ.Adapter::powered).toList();
        if (on.isEmpty()) {
            throw off(meant.get(0));
        }
        return on;
    }

    static BleException off(BlueZ.Adapter adapter) {
        return new BleException("adapter " + adapter.name() + " is off; switch Bluetooth on");
    }

    /** Where the device is; listens for it where BlueZ does not know it. */
    Place find(BleAddress address, Inbox nudges) throws BleException {
        BlueZ now = bus.look(patience.call().toNanos());
        List<BlueZ.Adapter> adapters = adapters(now, address.adapter());
        for (BlueZ.Adapter adapter : adapters) {
            if (now.device(adapter.path(), address.device()).isPresent()) {
                return place(adapter, address);
            }
        }
        return discover(adapters.get(0), address, nudges);
    }

    private static Place place(BlueZ.Adapter adapter, BleAddress address) {
        return new Place(adapter, adapter.path() + "/dev_" + address.device().replace(':', '_'));
    }

    private Place discover(BlueZ.Adapter adapter, BleAddress address, Inbox nudges) throws BleException {
        long callNanos = patience.call().toNanos();
        long end = ticker.nanos() + patience.find().toNanos();
        Bus.await(bus.startDiscovery(adapter.path()), callNanos, "the search for devices");
        try {
            while (bus.look(callNanos).device(adapter.path(), address.device()).isEmpty()) {
                if (ticker.nanos() >= end) {
                    throw new BleException("not heard within " + patience.find().toSeconds()
                            + " s; is it switched on, in reach and connected to nobody else?");
                }
                nudges.awaitNudge(LOOK_AGAIN_NANOS);
            }
        } finally {
            CompletableFuture<Object> unused = bus.stopDiscovery(adapter.path());
        }
        return place(adapter, address);
    }
}
