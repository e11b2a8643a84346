package draftwitness.link.ble;

import java.util.concurrent.atomic.AtomicLong;

/**
 * How long a device may say nothing before it is connected anew. Doubled each time that this brought nothing, so that a
 * device that sends only when something changes is mostly left alone. Kept from one link to the device to the next; any
 * thread.
 */
final class Silence {
    private final long firstNanos;
    private final long longestNanos;
    private final AtomicLong limitNanos;

    Silence(Patience patience) {
        this.firstNanos = patience.silence().toNanos();
        this.longestNanos = patience.longestSilence().toNanos();
        this.limitNanos = new AtomicLong(firstNanos);
    }

    long limitNanos() {
        return limitNanos.get();
    }

    /** A value came. */
    void broken() {
        limitNanos.set(firstNanos);
    }

    /** No value came for the whole limit. */
    void lasted() {
        limitNanos.updateAndGet(limit -> Math.min(2 * limit, longestNanos));
    }
}
