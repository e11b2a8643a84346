package draftwitness.cycle;

import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;

/**
 * One call for heat.
 *
 * @param index 1 for the first of the session
 * @param startNanos session time when suction left idle
 * @param endNanos session time when suction was back at idle after the last inducer run of the call
 * @param outcome how it ended
 * @param reason why a lockout came, else null
 * @param attempts starts of ignition, at least 1
 * @param phases in order; only those that the channels can tell apart
 * @param margin from the end of spin-up to the end of the run, or null without a set point or proving
 * @param marginByPhase the same for each phase that has one
 * @param plateauPascals median suction once proved, or NaN
 * @param transitions of the contact (or of the modelled one) once proved and while the inducer ran
 * @param episodes by start time
 * @param levels of draft, gas and flame taps, for each run of the inducer
 * @param complete whether nothing can change it any more; false while it lasts or may still be continued
 */
public record Cycle(
        int index,
        long startNanos,
        long endNanos,
        Outcome outcome,
        @Nullable Outcome reason,
        int attempts,
        List<PhaseSpan> phases,
        @Nullable Margin margin,
        Map<Phase, Margin> marginByPhase,
        double plateauPascals,
        int transitions,
        List<Episode> episodes,
        List<TapLevels> levels,
        boolean complete) {
    public Cycle {
        if (endNanos < startNanos) {
            throw new IllegalArgumentException("cycle " + index + " ends before it starts");
        }
        phases = List.copyOf(phases);
        marginByPhase = java.util.Collections.unmodifiableMap(new java.util.LinkedHashMap<>(marginByPhase));
        episodes = List.copyOf(episodes);
        levels = List.copyOf(levels);
    }
}
