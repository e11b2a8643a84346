package draftwitness.diagnosis.guided;

import draftwitness.reading.Tap;
import java.util.List;
import java.util.Set;
import org.jspecify.annotations.Nullable;

/** Levels of two parts that are compared. */
record Pairs(Level first, Level second) {

    static @Nullable Pairs of(@Nullable PartReadings first, @Nullable PartReadings second) {
        if (first == null
                || second == null
                || first.main().size() < Level.fewest()
                || second.main().size() < Level.fewest()) {
            return null;
        }
        return new Pairs(Level.of(first.main()), Level.of(second.main()));
    }

    /** The draft tap that tells most, or the chosen one; null if there is none. */
    static @Nullable Tap draftTap(Set<Tap> taps, @Nullable Tap chosen) {
        if (chosen != null) {
            return taps.contains(chosen) ? chosen : null;
        }
        return List.of(Tap.DRAFT_INDUCER, Tap.DRAFT_SWITCH, Tap.DRAFT_COLLECTOR).stream()
                .filter(taps::contains)
                .findFirst()
                .orElse(null);
    }

    /** Uncertainty of second over first, both relative ones joined. */
    double ratioUncertainty() {
        double ratio = Math.abs(second.mean() / first.mean());
        return ratio * Math.hypot(first.uncertainty() / first.mean(), second.uncertainty() / second.mean());
    }
}
