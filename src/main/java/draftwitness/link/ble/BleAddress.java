package draftwitness.link.ble;

import draftwitness.link.LinkAddress;
import java.util.Locale;
import java.util.regex.Pattern;

/**
 * A device's address and, if it was given, the adapter to reach it by.
 *
 * @param device six bytes in upper-case hexadecimal, with colons
 * @param adapter such as {@code hci0}; empty for any
 */
record BleAddress(String device, String adapter) {
    private static final Pattern DEVICE = Pattern.compile("([0-9A-F]{2}:){5}[0-9A-F]{2}");
    private static final Pattern ADAPTER = Pattern.compile("hci[0-9]+");

    static BleAddress of(LinkAddress address) throws BleException {
        String device = address.target().toUpperCase(Locale.ROOT);
        String adapter = address.options().text("adapter").orElse("");
        if (!DEVICE.matcher(device).matches()) {
            throw new BleException("is not ble:AA:BB:CC:DD:EE:FF; the sources command lists the devices in reach");
        }
        if (!adapter.isEmpty() && !ADAPTER.matcher(adapter).matches()) {
            throw new BleException("adapter is hci0, hci1, ...");
        }
        return new BleAddress(device, adapter);
    }
}
