package draftwitness.dashboard;

import java.util.List;

/**
 * What the furnace did, ready to paint. Immutable.
 *
 * @param cycles in order
 * @param episodes by their middle, earliest first
 * @param phases in order, lockouts among them
 * @param telling true when a channel tells cycles, or may yet
 */
public record Happenings(List<CycleMark> cycles, List<EpisodeMark> episodes, List<PhaseMark> phases, boolean telling) {
    public static final Happenings NONE = new Happenings(List.of(), List.of(), List.of(), false);

    public Happenings {
        cycles = List.copyOf(cycles);
        episodes = List.copyOf(episodes);
        phases = List.copyOf(phases);
    }
}
