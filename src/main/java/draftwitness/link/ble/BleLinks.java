package draftwitness.link.ble;

import draftwitness.link.ByteLink;
import draftwitness.link.LinkAddress;
import draftwitness.link.LinkException;
import draftwitness.link.LinkNeeds;
import draftwitness.link.LinkOpener;
import draftwitness.time.Ticker;
import java.util.Map;
import java.util.concurrent.ConcurrentHashMap;

/**
 * Opens {@code ble:AA:BB:CC:DD:EE:FF}. Any thread; several devices at once over one bus connection, which exists only
 * while a link does.
 */
public final class BleLinks implements LinkOpener {
    private final SharedBus bus;
    private final Patience patience;
    private final Map<String, Silence> silences = new ConcurrentHashMap<>();

    /** Links over the system's bus. Nothing is connected, nor any library loaded, before a link is opened. */
    public BleLinks() {
        this("", Patience.USUAL);
    }

    /** @param busAddress of another bus than the system's */
    BleLinks(String busAddress, Patience patience) {
        this.bus = new SharedBus(busAddress);
        this.patience = patience;
    }

    @Override
    public ByteLink open(LinkAddress address, LinkNeeds needs, Ticker ticker) throws LinkException {
        try {
            BleAddress parsed = BleAddress.of(address);
            Platform.check();
            if (needs.values().isEmpty()) {
                throw new BleException("the driver does not say which characteristics to read; use one for Bluetooth");
            }
            Silence silence = silences.computeIfAbsent(parsed.device(), d -> new Silence(patience));
            BleLink link = new BleLink(address.toString(), bus.lease(parsed.device()), ticker, patience, silence);
            try {
                link.open(parsed, needs);
                return link;
            } catch (BleException e) {
                link.close();
                throw e;
            }
        } catch (BleException e) {
            throw new LinkException(address + ": " + e.reason(), e);
        }
    }
}
