package draftwitness.report;

import draftwitness.cycle.Cycle;
import draftwitness.cycle.CycleReport;
import draftwitness.cycle.Episode;
import draftwitness.reading.Quantity;
import draftwitness.reading.Tap;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashSet;
import java.util.List;
import java.util.Set;

/**
 * Picks the episodes that a report shows: the gravest kinds first, each kind's longest, not the same thing over and
 * over. Pure.
 */
public final class WorstEpisodes {
    private static final int MOST = 6;
    private static final int MOST_OF_A_KIND = 2;
    private static final long SECOND = 1_000_000_000;
    private static final long SHORTEST_VIEW = 30 * SECOND;

    private WorstEpisodes() {}

    /**
     * A choice.
     *
     * @param cycle index of its cycle
     * @param fromNanos begin of the span to show
     * @param toNanos its end
     */
    public record Pick(int cycle, Episode episode, long fromNanos, long toNanos) {}

    /** The episodes to show, worst first; none for a session without. */
    public static List<Pick> of(CycleReport report) {
        List<Pick> all = new ArrayList<>();
        for (Cycle c : report.cycles()) {
            for (Episode e : c.episodes()) {
                long length = e.endNanos() - e.startNanos();
                long around = Math.max(length / 2, (SHORTEST_VIEW - length) / 2);
                all.add(new Pick(c.index(), e, e.startNanos() - around, e.endNanos() + around));
            }
        }
        all.sort(Comparator.comparing((Pick p) -> p.episode().kind().severity())
                .reversed()
                .thenComparing(p -> p.episode().kind())
                .thenComparing(p -> p.episode().startNanos() - p.episode().endNanos())
                .thenComparing(p -> p.episode().startNanos()));
        return spread(all);
    }

    private static List<Pick> spread(List<Pick> sorted) {
        List<Pick> picked = new ArrayList<>();
        Set<String> seen = new HashSet<>();
        for (Pick p : sorted) {
            String kind = p.episode().kind().id();
            long ofKind = picked.stream()
                    .filter(o -> o.episode().kind() == p.episode().kind())
                    .count();
            if (picked.size() < MOST && ofKind < MOST_OF_A_KIND && seen.add(kind + " " + p.cycle())) {
                picked.add(p);
            }
        }
        return picked;
    }

    /** The taps worth seeing beside an episode: its own, the pressures it is judged with, and the contacts. */
    public static boolean isBeside(Episode episode, Tap tap) {
        return tap == episode.tap()
                || tap == Tap.DRAFT_SWITCH
                || tap == Tap.DRAFT_INDUCER
                || tap == Tap.CONTACT_SWITCH
                || (tap == Tap.GAS_MANIFOLD && tap.quantity() == Quantity.PRESSURE);
    }
}
