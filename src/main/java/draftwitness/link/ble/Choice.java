package draftwitness.link.ble;

import draftwitness.link.LinkNeeds;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/**
 * Which of a device's characteristics serve a link. Immutable.
 *
 * @param taken those wanted, in the order of the needs
 * @param battery the battery level, if it is wanted and the device has it
 */
record Choice(List<Taken> taken, Optional<BlueZ.Characteristic> battery) {

    /** Battery Level, characteristic 0x2A19. */
    static final String BATTERY = "00002a19-0000-1000-8000-00805f9b34fb";

    /** Characteristic Presentation Format, descriptor 0x2904. */
    static final String FORMAT = "00002904-0000-1000-8000-00805f9b34fb";

    /** What is put behind a characteristic's UUID to name its format as an endpoint. */
    static final String FORMAT_ENDPOINT = "/2904";

    /**
     * A characteristic that is wanted.
     *
     * @param pollNanos from one read to the next; 0 if it sends by itself
     * @param format path of its Presentation Format descriptor, if that is wanted and there
     */
    record Taken(BlueZ.Characteristic characteristic, long pollNanos, Optional<String> format) {}

    /**
     * Chooses.
     *
     * @throws BleException if something wanted is missing, naming what the device has
     */
    static Choice of(LinkNeeds needs, BlueZ now, String devicePath) throws BleException {
        List<BlueZ.Characteristic> all = now.characteristics(devicePath);
        List<Taken> taken = new ArrayList<>();
        for (LinkNeeds.Value need : needs.values()) {
            if (need.uuid().equals(LinkNeeds.ANY)) {
                takeSelfDescribed(need, now, all, taken);
            } else {
                takeNamed(need, now, all, taken);
            }
        }
        Optional<BlueZ.Characteristic> battery = all.stream()
                .filter(c -> needs.battery() && c.uuid().equals(BATTERY))
                .filter(c ->
                        taken.stream().noneMatch(t -> t.characteristic().path().equals(c.path())))
                .findFirst();
        return new Choice(List.copyOf(taken), battery);
    }

    private static boolean inService(LinkNeeds.Value need, BlueZ.Characteristic c) {
        return need.service().equals(LinkNeeds.ANY) || need.service().equals(c.service());
    }

    private static void takeSelfDescribed(
            LinkNeeds.Value need, BlueZ now, List<BlueZ.Characteristic> all, List<Taken> taken) throws BleException {
        int before = taken.size();
        for (BlueZ.Characteristic c : all) {
            Optional<String> format = now.descriptor(c.path(), FORMAT);
            boolean fits = need.pollNanos() > 0 ? c.canBeRead() : c.sends();
            if (inService(need, c) && format.isPresent() && fits) {
                taken.add(new Taken(c, need.pollNanos(), format));
            }
        }
        if (taken.size() == before) {
            throw new BleException("describes no value that it " + (need.pollNanos() > 0 ? "lets read" : "sends")
                    + "; use a driver that names the characteristic; it has " + list(all));
        }
    }

    private static void takeNamed(LinkNeeds.Value need, BlueZ now, List<BlueZ.Characteristic> all, List<Taken> taken)
            throws BleException {
        BlueZ.Characteristic c = all.stream()
                .filter(one -> one.uuid().equals(need.uuid()) && inService(need, one))
                .findFirst()
                .orElseThrow(() -> new BleException("has no characteristic " + need.uuid()
                        + (need.service().equals(LinkNeeds.ANY) ? "" : " in service " + need.service())
                        + "; is the driver the right one? It has " + list(all)));
        if (need.pollNanos() == 0 && !c.sends()) {
            throw new BleException("characteristic " + c.uuid() + " does not send by itself; have it read (get=read)");
        }
        if (need.pollNanos() > 0 && !c.canBeRead()) {
            throw new BleException("characteristic " + c.uuid() + " cannot be read; let it send (get=notify)");
        }
        taken.add(new Taken(c, need.pollNanos(), need.format() ? now.descriptor(c.path(), FORMAT) : Optional.empty()));
    }

    private static String list(List<BlueZ.Characteristic> all) {
        return all.isEmpty()
                ? "none"
                : String.join(
                        " ",
                        all.stream().map(BlueZ.Characteristic::uuid).distinct().toList());
    }
}
