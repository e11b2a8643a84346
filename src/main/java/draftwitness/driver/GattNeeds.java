package draftwitness.driver;

import java.util.List;
import java.util.Locale;
import java.util.regex.Pattern;

/**
 * What a Bluetooth low energy link has to get from the device for a driver. Immutable; any thread.
 *
 * <p>The link hands on each value as one chunk whose endpoint is the characteristic's {@link #fullUuid full UUID}, and,
 * for characteristics that want it, once after connecting the Presentation Format descriptor (0x2904) as a chunk whose
 * endpoint is {@link #descriptorEndpoint}.
 *
 * @param characteristics at least one
 * @param battery whether to get the battery level too where the device has it ({@link #BATTERY_LEVEL})
 */
public record GattNeeds(List<Characteristic> characteristics, boolean battery) {

    /** How values are got. */
    public enum Get {
        /** The device sends them by itself (notification or indication). */
        NOTIFY,
        /** They are read again and again. */
        READ
    }

    /** Stands for every notifying or readable characteristic that has a Presentation Format descriptor. */
    public static final String ANY = "any";

    private static final String BASE = "-0000-1000-8000-00805f9b34fb";
    private static final Pattern SHORT = Pattern.compile("(0x)?[0-9a-f]{4}");
    private static final Pattern MIDDLE = Pattern.compile("(0x)?[0-9a-f]{8}");
    private static final Pattern FULL = Pattern.compile("[0-9a-f]{8}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{12}");

    /** Battery service 0x180F, characteristic Battery Level 0x2A19. */
    public static final String BATTERY_LEVEL = fullUuid("0x2A19");

    /**
     * One characteristic.
     *
     * @param service full UUID of its service, or {@link #ANY}
     * @param uuid its full UUID, or {@link #ANY}
     * @param periodSeconds from one read to the next; for {@link Get#READ}
     * @param presentation whether its Presentation Format descriptor is wanted
     */
    public record Characteristic(String service, String uuid, Get get, double periodSeconds, boolean presentation) {}

    public GattNeeds {
        characteristics = List.copyOf(characteristics);
    }

    /**
     * The 128-bit form, in lower case, of a UUID written in any of the usual forms ({@code 0x2A6D}).
     *
     * @throws IllegalArgumentException if it is not a UUID
     */
    public static String fullUuid(String text) {
        String low = text.strip().toLowerCase(Locale.ROOT);
        if (SHORT.matcher(low).matches()) {
            return "0000" + low.substring(low.length() - 4) + BASE;
        }
        if (MIDDLE.matcher(low).matches()) {
            return low.substring(low.length() - 8) + BASE;
        }
        if (FULL.matcher(low).matches()) {
            return low;
        }
        throw new IllegalArgumentException("'" + text + "' is not a UUID such as 0x2A6D");
    }

    /** Endpoint of the Presentation Format descriptor of a characteristic. */
    public static String descriptorEndpoint(String fullUuid) {
        return fullUuid + "/2904";
    }
}
