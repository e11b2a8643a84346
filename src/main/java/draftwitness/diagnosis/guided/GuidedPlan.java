package draftwitness.diagnosis.guided;

import draftwitness.reading.Tap;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import org.jspecify.annotations.Nullable;

/**
 * What one measurement asks for with what is connected.
 *
 * @param kind the measurement
 * @param parts stretches of readings in order; at least one
 */
public record GuidedPlan(GuidedKind kind, List<Part> parts) {
    public GuidedPlan {
        parts = List.copyOf(parts);
        if (parts.isEmpty()) {
            throw new IllegalArgumentException(kind.id() + " without parts");
        }
    }

    /**
     * The plan for a measurement.
     *
     * @param taps what is connected
     * @param chosen the tap to use where several would do, or null for the best one
     * @return empty if what is connected is not enough; {@link #needs} tells what would be
     */
    public static Optional<GuidedPlan> of(GuidedKind kind, Set<Tap> taps, @Nullable Tap chosen) {
        List<Part> parts = kind.judge().parts(taps, chosen);
        return parts.isEmpty() ? Optional.empty() : Optional.of(new GuidedPlan(kind, parts));
    }

    /** What has to be connected for a measurement, in plain words. */
    public static String needs(GuidedKind kind) {
        return kind.judge().needs();
    }

    /** The part with an id, or empty. */
    public Optional<Part> part(String id) {
        return parts.stream().filter(p -> p.id().equals(id)).findFirst();
    }
}
