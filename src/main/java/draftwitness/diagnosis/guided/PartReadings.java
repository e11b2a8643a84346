package draftwitness.diagnosis.guided;

import draftwitness.reading.Tap;
import java.util.EnumMap;
import java.util.Map;

/** The readings of one part, tap by tap. One owner thread. */
final class PartReadings {
    private final Part part;
    private final long fromNanos;
    private final Map<Tap, Samples> byTap = new EnumMap<>(Tap.class);
    private long toNanos;

    PartReadings(Part part, long fromNanos) {
        this.part = part;
        this.fromNanos = fromNanos;
        this.toNanos = fromNanos;
        part.taps().forEach(tap -> byTap.put(tap, new Samples(tap)));
    }

    Part part() {
        return part;
    }

    long fromNanos() {
        return fromNanos;
    }

    /** How far it has come, or its end. */
    long toNanos() {
        return toNanos;
    }

    void reached(long nanos) {
        toNanos = Math.max(toNanos, nanos);
    }

    double seconds() {
        return (toNanos - fromNanos) / 1e9;
    }

    /** Readings at a tap; empty if it is not read here. */
    Samples at(Tap tap) {
        Samples samples = byTap.get(tap);
        return samples == null ? new Samples(tap) : samples;
    }

    /** Readings at the tap where the hose goes. */
    Samples main() {
        return at(part.taps().get(0));
    }
}
