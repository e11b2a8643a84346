package draftwitness.diagnosis.guided;

import draftwitness.reading.Tap;
import java.util.List;

/**
 * One stretch of readings that a measurement asks for.
 *
 * @param id its name within the measurement, for example {@code standing}
 * @param taps read during it, the one where the hose goes first; further ones that help come last
 * @param leastSeconds with less it cannot be judged
 * @param seconds it ends by itself after so long; infinite if it ends otherwise
 */
public record Part(String id, List<Tap> taps, double leastSeconds, double seconds) {
    public Part {
        taps = List.copyOf(taps);
        if (taps.isEmpty() || !(leastSeconds >= 0 && seconds >= leastSeconds)) {
            throw new IllegalArgumentException(id + ": " + taps + ", " + leastSeconds + " to " + seconds + " s");
        }
    }

    Part(String id, Tap tap, double leastSeconds, double seconds) {
        this(id, List.of(tap), leastSeconds, seconds);
    }
}
