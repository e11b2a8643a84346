package draftwitness.capture;

import draftwitness.driver.Driver;
import draftwitness.driver.GattNeeds;
import draftwitness.link.LinkAddress;
import draftwitness.link.LinkNeeds;
import draftwitness.reading.Channel;
import draftwitness.reading.SourceInfo;
import draftwitness.reading.Tap;
import java.util.ArrayList;
import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;

/**
 * One source of a session: what to open, how to read it, and which reading is on which tap.
 *
 * @param id the name chosen for the source
 * @param driver how to read it, parameters settled
 * @param driverText as on the command line, with parameters
 * @param address where it is connected
 * @param taps tap to index in {@link Driver#readings()}; readings that are on no tap are not recorded
 */
public record SourcePlan(String id, Driver driver, String driverText, LinkAddress address, Map<Tap, Integer> taps) {
    public SourcePlan {
        taps = Collections.unmodifiableMap(new LinkedHashMap<>(taps));
    }

    /** The channels that this source gives a session. */
    public List<Channel> channels() {
        List<Channel> channels = new ArrayList<>();
        taps.forEach((tap, reading) -> channels.add(new Channel(
                tap,
                id,
                driver.readings().get(reading).name(),
                driver.readings().get(reading).unit())));
        return channels;
    }

    /** What to open: the address, with the control lines that the driver's contacts are on. */
    LinkAddress watchedAddress() {
        return address.watching(driver.controlLines());
    }

    /** What the link has to get for the driver. */
    LinkNeeds needs() {
        return driver.gatt().map(SourcePlan::needs).orElse(LinkNeeds.BYTES);
    }

    private static LinkNeeds needs(GattNeeds gatt) {
        return new LinkNeeds(
                gatt.characteristics().stream().map(SourcePlan::value).toList(), gatt.battery());
    }

    private static LinkNeeds.Value value(GattNeeds.Characteristic c) {
        long pollNanos = c.get() == GattNeeds.Get.READ ? Math.round(c.periodSeconds() * 1e9) : 0;
        return new LinkNeeds.Value(any(c.service()), any(c.uuid()), pollNanos, c.presentation());
    }

    private static String any(String uuid) {
        return uuid.equals(GattNeeds.ANY) ? LinkNeeds.ANY : uuid;
    }

    /** What is kept with the recording. */
    public SourceInfo info() {
        return new SourceInfo(id, driverText, address.toString(), driver.description());
    }
}
