package draftwitness.bridge;

import java.nio.charset.StandardCharsets;

/**
 * One message for other programs. Immutable.
 *
 * @param kind what it tells
 * @param json one JSON object on one line
 */
record Message(Kind kind, String json) {

    /** What messages tell; each has a topic of its own below the site's. */
    enum Kind {
        /** Whether somebody is there. */
        STATUS(true),
        /** What the session is made of. */
        SESSION(true),
        /** All readings of one cell of the time grid. */
        READINGS(false),
        /** What the furnace is doing now. */
        PHASE(true),
        /** Something worth attention. */
        EPISODE(false),
        /** A heating cycle that is over. */
        CYCLE(false);

        private final boolean retained;

        Kind(boolean retained) {
            this.retained = retained;
        }

        /** Whether the newest one is kept for whoever comes later. */
        boolean isRetained() {
            return retained;
        }

        /** As in topics and in the JSON's {@code type}. */
        String word() {
            return name().toLowerCase(java.util.Locale.ROOT);
        }
    }

    byte[] bytes() {
        return json.getBytes(StandardCharsets.UTF_8);
    }

    /** Bytes that it takes in a queue, nearly. */
    int weight() {
        return json.length() + 64;
    }
}
