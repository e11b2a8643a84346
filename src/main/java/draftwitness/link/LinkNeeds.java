package draftwitness.link;

import java.util.List;

/**
 * What a link has to get from an instrument that offers several things apart from each other, such as the
 * characteristics of a Bluetooth low energy device. Immutable; any thread.
 *
 * @param values what to get, each delivered as chunks whose endpoint is its name; none for plain byte streams
 * @param battery whether to get the battery level too where the device has it
 */
public record LinkNeeds(List<Value> values, boolean battery) {

    /** All the bytes there are: serial ports, TCP, files. */
    public static final LinkNeeds BYTES = new LinkNeeds(List.of(), false);

    /** Stands for whatever the device has. */
    public static final String ANY = "any";

    /**
     * One thing to get.
     *
     * @param service full UUID of the service, lower case, or {@link #ANY}
     * @param uuid full UUID of the characteristic, lower case, or {@link #ANY}: each that describes its own format
     * @param pollNanos from one read to the next; 0 if the device sends by itself
     * @param format whether the descriptor of its format is wanted too, before the first value
     */
    public record Value(String service, String uuid, long pollNanos, boolean format) {
        public Value {
            if (pollNanos < 0) {
                throw new IllegalArgumentException("read every " + pollNanos + " ns");
            }
        }
    }

    public LinkNeeds {
        values = List.copyOf(values);
    }
}
