package draftwitness.link;

import draftwitness.input.InputException;
import draftwitness.link.LinkAddress.Kind;
import draftwitness.time.Ticker;
import java.util.Map;

/** Opens the kinds of link that this room knows, and those that were registered with it. Immutable; any thread. */
public final class Links implements LinkOpener {
    private final Map<Kind, LinkOpener> others;

    /**
     * Makes an opener.
     *
     * @param others openers of further kinds (simulated, ...)
     */
    public Links(Map<Kind, LinkOpener> others) {
        this.others = Map.copyOf(others);
    }

    /**
     * Refuses an address that cannot work whatever is plugged in: an option out of range, a file that is not there.
     *
     * @throws InputException naming the address
     */
    public static void check(LinkAddress address) throws InputException {
        switch (address.kind()) {
            case SERIAL -> SerialLink.Settings.of(address.options());
            case TCP -> TcpLink.check(address);
            case FILE -> FileFeed.check(address);
            case BLE, RECORDING, SIMULATED, MQTT -> {
                // Whoever opens these knows.
            }
        }
    }

    @Override
    public ByteLink open(LinkAddress address, LinkNeeds needs, Ticker ticker) throws LinkException {
        LinkOpener other = others.get(address.kind());
        if (other != null) {
            return other.open(address, needs, ticker);
        }
        return switch (address.kind()) {
            case SERIAL -> SerialLink.open(address, ticker);
            case TCP -> TcpLink.open(address, ticker);
            case FILE -> new PacedLink(address.toString(), FileFeed.open(address), ticker);
            case BLE, RECORDING, SIMULATED, MQTT ->
                throw new LinkException(address + ": " + address.kind().word() + ": links cannot be used here");
        };
    }
}
