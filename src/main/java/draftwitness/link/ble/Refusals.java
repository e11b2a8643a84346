package draftwitness.link.ble;

import java.util.Locale;

/** BlueZ's words for what it cannot do, said so that a technician knows what to try. Pure. */
final class Refusals {
    private Refusals() {}

    /**
     * Explains a refusal.
     *
     * @param what what was waited for, such as "a connection"
     * @param said BlueZ's words
     */
    static BleException explain(String what, String said, Throwable cause) {
        String low = said.toLowerCase(Locale.ROOT);
        if (mentions(low, "not provided by any", "namehasnoowner", "has no owner", "serviceunknown")) {
            return new BleException("BlueZ has stopped; it is tried again", cause);
        }
        if (mentions(low, "not ready", "not powered")) {
            return new BleException("the adapter is off; switch Bluetooth on", cause);
        }
        if (mentions(low, "authoriz", "authentic", "not paired", "insufficient", "0x05", "0x0f", "0x08")) {
            return new BleException(
                    what + " needs pairing; pair once with the system's Bluetooth settings or bluetoothctl", cause);
        }
        if (mentions(low, "abort", "cancel", "page timeout", "connection-timeout", "host is down")) {
            return new BleException("does not answer; is it switched on and in reach?", cause);
        }
        if (mentions(low, "no such", "unknownobject", "unknown object", "doesn't exist", "does not exist")) {
            return new BleException("has left; it is looked for again", cause);
        }
        if (mentions(low, "not connected", "disconnected")) {
            return new BleException("disconnected", cause);
        }
        return new BleException(what + " failed: " + said, cause);
    }

    /** True if a refused connection is one that exists or is being made already. */
    static boolean isConnecting(BleException e) {
        String low = String.valueOf(
                        e.getCause() == null ? e.getMessage() : e.getCause().getMessage())
                .toLowerCase(Locale.ROOT);
        return mentions(low, "already connected", "in progress", "inprogress", "already in progress");
    }

    private static boolean mentions(String text, String... words) {
        for (String word : words) {
            if (text.contains(word)) {
                return true;
            }
        }
        return false;
    }
}
