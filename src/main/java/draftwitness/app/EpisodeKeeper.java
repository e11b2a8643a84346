package draftwitness.app;

import draftwitness.cycle.Cycle;
import draftwitness.cycle.Episode;
import draftwitness.cycle.EpisodeKind;
import draftwitness.cycle.LiveReport;
import draftwitness.cycle.LiveSnapshot;
import draftwitness.cycle.Outcome;
import draftwitness.reading.SessionHeader;
import draftwitness.reading.SessionListener;
import draftwitness.reading.Slice;
import java.util.HashMap;
import java.util.Map;
import java.util.function.Supplier;

/**
 * Watches a session for what a recording of episodes is to keep at full rate: every episode but the dip at light-off,
 * which every good start has, and every cycle that failed, needed more than one attempt, or is cut off. Called by the
 * session's thread alone.
 */
public final class EpisodeKeeper implements SessionListener {
    private static final long SECOND = 1_000_000_000;

    private final Supplier<LiveSnapshot> report;
    private final Claims claims;
    /** Where each claim ends, by what is claimed and where it begins: a span that grows is claimed again. */
    private final Map<String, Long> claimed = new HashMap<>();

    private long seen;
    private long judgedAt = Long.MIN_VALUE;

    /** Who keeps the spans. */
    public interface Claims {
        /** A span of session time, in nanoseconds. */
        void claim(long fromNanos, long toNanos);
    }

    /**
     * A watch over one session.
     *
     * @param report what the furnace did so far: of a {@link LiveReport} that is told of the session before this
     */
    public EpisodeKeeper(Supplier<LiveSnapshot> report, Claims claims) {
        this.report = report;
        this.claims = claims;
    }

    @Override
    public void begin(SessionHeader header) {
        claimed.clear();
    }

    @Override
    public void slice(Slice slice) {
        look();
    }

    @Override
    public void end() {
        look();
    }

    private void look() {
        LiveSnapshot now = report.get();
        if (now.number() == seen || now.reportAtNanos() == judgedAt) {
            return;
        }
        seen = now.number();
        judgedAt = now.reportAtNanos();
        for (Cycle cycle : now.report().cycles()) {
            if (isBad(cycle)) {
                claim("cycle", cycle.startNanos(), cycle.endNanos());
            }
            for (Episode episode : cycle.episodes()) {
                if (episode.kind() != EpisodeKind.LIGHT_OFF_DIP) {
                    claim(episode.kind().id(), episode.startNanos(), episode.endNanos());
                }
            }
        }
    }

    private static boolean isBad(Cycle cycle) {
        boolean failed = cycle.outcome() != Outcome.HEATED && cycle.outcome() != Outcome.INCOMPLETE;
        return failed || cycle.attempts() > 1 || (cycle.complete() && cycle.outcome() == Outcome.INCOMPLETE);
    }

    private void claim(String what, long from, long to) {
        String key = what + " " + from;
        Long before = claimed.get(key);
        if (before == null || to - before >= SECOND) {
            claimed.put(key, to);
            claims.claim(from, to);
        }
    }

    /** How many spans were claimed so far; one that grew counts once. */
    public int spans() {
        return claimed.size();
    }
}
