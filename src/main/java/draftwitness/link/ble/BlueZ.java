package draftwitness.link.ble;

import java.util.ArrayList;
import java.util.Collection;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import org.jspecify.annotations.Nullable;

/**
 * What BlueZ said it had at one moment: adapters, devices, characteristics. Immutable; any thread. Asked afresh at each
 * step instead of being kept up to date by signals, of which BlueZ leaves some out.
 */
final class BlueZ {
    static final String ADAPTER = "org.bluez.Adapter1";
    static final String DEVICE = "org.bluez.Device1";
    static final String BATTERY = "org.bluez.Battery1";
    static final String SERVICE = "org.bluez.GattService1";
    static final String CHARACTERISTIC = "org.bluez.GattCharacteristic1";
    static final String DESCRIPTOR = "org.bluez.GattDescriptor1";

    /** What BlueZ gives for a strength that it does not know. */
    private static final int UNKNOWN_RSSI = 127;

    /** A Bluetooth adapter of this computer. */
    record Adapter(String path, boolean powered) {
        String name() {
            return path.substring(path.lastIndexOf('/') + 1);
        }
    }

    /** A device that BlueZ has heard or knows from earlier. */
    record Device(
            String path,
            String address,
            String name,
            OptionalInt rssi,
            Set<String> services,
            boolean connected,
            boolean resolved) {}

    /** A characteristic of a connected device. */
    record Characteristic(String path, String service, String uuid, Set<String> flags) {
        boolean sends() {
            return flags.contains("notify") || flags.contains("indicate");
        }

        boolean canBeRead() {
            return flags.contains("read");
        }
    }

    private final Map<String, Map<String, Map<String, Object>>> objects;

    /** @param objects path to interface to property to value; not copied */
    BlueZ(Map<String, Map<String, Map<String, Object>>> objects) {
        this.objects = new TreeMap<>(objects);
    }

    /** All adapters, by name. */
    List<Adapter> adapters() {
        List<Adapter> found = new ArrayList<>();
        objects.forEach((path, interfaces) -> {
            Map<String, Object> p = interfaces.get(ADAPTER);
            if (p != null) {
                found.add(new Adapter(path, Boolean.TRUE.equals(p.get("Powered"))));
            }
        });
        found.sort(Comparator.comparing(Adapter::name));
        return found;
    }

    /** The adapter at this path. */
    Optional<Adapter> adapter(String path) {
        return adapters().stream().filter(a -> a.path().equals(path)).findFirst();
    }

    /** All devices that an adapter knows. */
    List<Device> devices(String adapterPath) {
        List<Device> found = new ArrayList<>();
        objects.forEach((path, interfaces) -> {
            Map<String, Object> p = interfaces.get(DEVICE);
            if (p != null && path.startsWith(adapterPath + "/")) {
                found.add(device(path, p));
            }
        });
        return found;
    }

    private static Device device(String path, Map<String, Object> p) {
        String address = text(p.get("Address")).toUpperCase(Locale.ROOT);
        String name = text(p.get("Name"));
        return new Device(
                path,
                address,
                name,
                p.get("RSSI") instanceof Number n && n.intValue() != UNKNOWN_RSSI
                        ? OptionalInt.of(n.intValue())
                        : OptionalInt.empty(),
                texts(p.get("UUIDs")),
                Boolean.TRUE.equals(p.get("Connected")),
                Boolean.TRUE.equals(p.get("ServicesResolved")));
    }

    /** The device with this address, if the adapter knows it. */
    Optional<Device> device(String adapterPath, String address) {
        return devices(adapterPath).stream()
                .filter(d -> d.address().equals(address))
                .findFirst();
    }

    /**
     * The battery level of a device in percent, where BlueZ keeps it by itself: it then takes the battery service for
     * its own and lists no characteristic for it.
     */
    OptionalInt battery(String devicePath) {
        Object percent = objects.getOrDefault(devicePath, Map.of())
                .getOrDefault(BATTERY, Map.of())
                .get("Percentage");
        return percent instanceof Number n ? OptionalInt.of(n.intValue()) : OptionalInt.empty();
    }

    /** All characteristics of a device, in the order of their paths, which is that of the device. */
    List<Characteristic> characteristics(String devicePath) {
        List<Characteristic> found = new ArrayList<>();
        objects.forEach((path, interfaces) -> {
            Map<String, Object> p = interfaces.get(CHARACTERISTIC);
            if (p != null && path.startsWith(devicePath + "/")) {
                String service = path.substring(0, path.lastIndexOf('/'));
                String serviceUuid = text(objects.getOrDefault(service, Map.of())
                        .getOrDefault(SERVICE, Map.of())
                        .get("UUID"));
                found.add(new Characteristic(path, low(serviceUuid), low(text(p.get("UUID"))), texts(p.get("Flags"))));
            }
        });
        return found;
    }

    /** The path of a characteristic's descriptor with this UUID. */
    Optional<String> descriptor(String characteristicPath, String uuid) {
        return objects.entrySet().stream()
                .filter(e -> e.getKey().startsWith(characteristicPath + "/"))
                .filter(e -> uuid.equals(
                        low(text(e.getValue().getOrDefault(DESCRIPTOR, Map.of()).get("UUID")))))
                .map(Map.Entry::getKey)
                .findFirst();
    }

    private static String low(String uuid) {
        return uuid.toLowerCase(Locale.ROOT);
    }

    private static String text(@Nullable Object value) {
        return value == null ? "" : value.toString();
    }

    private static Set<String> texts(@Nullable Object value) {
        Set<String> texts = new TreeSet<>();
        if (value instanceof Collection<?> list) {
            list.forEach(v -> texts.add(text(v)));
        } else if (value instanceof Object[] array) {
            for (Object v : array) {
                texts.add(text(v));
            }
        }
        return texts;
    }
}
