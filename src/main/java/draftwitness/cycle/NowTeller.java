package draftwitness.cycle;

import draftwitness.setup.Setup;
import draftwitness.signal.LevelWindow;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;

/**
 * Says where in the sequence the furnace stands and what comes next. One owner thread.
 *
 * <p>How it works: a finished cycle teaches how long its phases took (median of the last ones). While a run goes on,
 * its last provisional phase is the present one; between runs of a call it is {@code recycle}, after a call
 * {@code standby} or {@code lockout}. The phase that follows comes from the usual order, less the phases that the
 * channels cannot tell.
 */
final class NowTeller {
    private static final int REMEMBERED = 21;
    private static final int ENOUGH = 2;

    private final CycleSettings settings;
    private final boolean gasKnown;
    private final Map<Phase, LevelWindow> learnt = new EnumMap<>(Phase.class);
    private int learntCycles;

    NowTeller(CycleSettings settings, boolean gasKnown) {
        this.settings = settings;
        this.gasKnown = gasKnown;
    }

    /** Learns from the cycles that are complete and were not seen before. */
    void learn(List<Cycle> cycles) {
        while (learntCycles < cycles.size() && cycles.get(learntCycles).complete()) {
            Cycle c = cycles.get(learntCycles++);
            if (c.outcome() == Outcome.HEATED && c.attempts() == 1) {
                for (PhaseSpan p : c.phases()) {
                    learnt.computeIfAbsent(p.phase(), k -> new LevelWindow(REMEMBERED))
                            .add((p.endNanos() - p.startNanos()) / 1e9);
                }
            }
        }
    }

    Now tell(Glance glance, Progress progress) {
        List<Cycle> cycles = progress.report().cycles();
        int index = cycles.isEmpty() ? 0 : cycles.get(cycles.size() - 1).index();
        if (!glance.known()) {
            return now(glance, null, glance.atNanos(), 0, 0, progress);
        }
        if (glance.running() && progress.lastRunLasts()) {
            RunFacts run = progress.open().get(progress.open().size() - 1);
            PhaseSpan last = run.phases().isEmpty()
                    ? new PhaseSpan(
                            Phase.SPIN_UP, run.span().startNanos(), run.span().stopNanos())
                    : run.phases().get(run.phases().size() - 1);
            Cycle c = cycles.get(cycles.size() - 1);
            return now(glance, last.phase(), last.startNanos(), index, c.attempts(), progress);
        }
        if (glance.running()) {
            return now(glance, Phase.SPIN_UP, glance.sinceNanos(), index + 1, 1, progress);
        }
        if (progress.lockedSinceNanos() != null || progress.openOutcome() == Outcome.LOCKOUT) {
            Cycle c = cycles.get(cycles.size() - 1);
            return now(glance, Phase.LOCKOUT, c.endNanos(), index, c.attempts(), progress);
        }
        if (!progress.open().isEmpty() && progress.openOutcome() != Outcome.HEATED) {
            RunSpan last = progress.open().get(progress.open().size() - 1).span();
            Cycle c = cycles.get(cycles.size() - 1);
            return now(glance, Phase.RECYCLE, last.stopNanos(), index, c.attempts(), progress);
        }
        long since = cycles.isEmpty()
                ? glance.sinceNanos()
                : cycles.get(cycles.size() - 1).endNanos();
        return now(glance, Phase.STANDBY, since, 0, 0, progress);
    }

    private Now now(Glance g, @Nullable Phase phase, long since, int cycle, int attempt, Progress progress) {
        Long locked = progress.lockedSinceNanos();
        if (locked == null && phase == Phase.LOCKOUT) {
            locked = since;
        }
        return new Now(
                g.atNanos(),
                phase,
                since,
                cycle,
                attempt,
                g.running(),
                g.suctionMade(),
                g.contactMade(),
                g.suctionPascals(),
                phase == null ? null : next(phase, since, g.atNanos()),
                locked);
    }

    private Now.@Nullable Next next(Phase phase, long since, long at) {
        Setup.Sequence s = settings.sequence();
        double warmUp = s.igniterWarmUp();
        return switch (phase) {
            case SPIN_UP -> follows(Phase.PRE_PURGE, since, usual(Phase.SPIN_UP, Double.NaN), s.provingLimit());
            case PRE_PURGE -> afterPurge(since, at);
            case IGNITER_WARM_UP -> follows(Phase.TRIAL, since, usual(Phase.IGNITER_WARM_UP, warmUp), Double.NaN);
            case TRIAL -> follows(Phase.RUN, since, usual(Phase.TRIAL, s.trialForIgnition()), s.trialForIgnition());
            case RUN ->
                follows(gasKnown ? Phase.POST_PURGE : Phase.STANDBY, since, usual(Phase.RUN, Double.NaN), Double.NaN);
            case POST_PURGE -> follows(Phase.STANDBY, since, usual(Phase.POST_PURGE, s.postPurge()), Double.NaN);
            case RECYCLE -> follows(Phase.SPIN_UP, since, Double.NaN, s.retryMax());
            case STANDBY, LOCKOUT -> follows(Phase.SPIN_UP, since, Double.NaN, Double.NaN);
        };
    }

    /**
     * Without a gas channel, purge and warm-up are one phase. With one they are told apart only once gas opens, so the
     * plan says which of them should be going on.
     */
    private Now.Next afterPurge(long since, long at) {
        double purge = usual(Phase.PRE_PURGE, settings.sequence().prePurge());
        double warmUp = usual(Phase.IGNITER_WARM_UP, settings.sequence().igniterWarmUp());
        if (!gasKnown) {
            double whole = usual(
                    Phase.PRE_PURGE,
                    settings.sequence().prePurge() + settings.sequence().igniterWarmUp());
            return follows(Phase.RUN, since, whole, Double.NaN);
        }
        boolean warming = at - since >= CycleSettings.nanos(purge);
        return warming || warmUp == 0
                ? new Now.Next(Phase.TRIAL, since + CycleSettings.nanos(purge + warmUp), null, has(Phase.PRE_PURGE))
                : new Now.Next(Phase.IGNITER_WARM_UP, since + CycleSettings.nanos(purge), null, has(Phase.PRE_PURGE));
    }

    private Now.Next follows(Phase next, long since, double expected, double latest) {
        Phase now = before(next);
        return new Now.Next(
                next,
                Double.isNaN(expected) ? null : Long.valueOf(since + CycleSettings.nanos(expected)),
                Double.isNaN(latest) ? null : Long.valueOf(since + CycleSettings.nanos(latest)),
                now != null && has(now) && !Double.isNaN(expected));
    }

    /** The phase whose usual length says when the next one begins. */
    private @Nullable Phase before(Phase next) {
        return switch (next) {
            case PRE_PURGE -> Phase.SPIN_UP;
            case IGNITER_WARM_UP -> Phase.PRE_PURGE;
            case TRIAL -> Phase.IGNITER_WARM_UP;
            case RUN -> gasKnown ? Phase.TRIAL : Phase.PRE_PURGE;
            case POST_PURGE -> Phase.RUN;
            case STANDBY -> gasKnown ? Phase.POST_PURGE : Phase.RUN;
            case SPIN_UP, RECYCLE, LOCKOUT -> null;
        };
    }

    private boolean has(Phase phase) {
        LevelWindow known = learnt.get(phase);
        return known != null && known.size() >= ENOUGH;
    }

    private double usual(Phase phase, double otherwise) {
        LevelWindow known = learnt.get(phase);
        return known != null && known.size() >= ENOUGH ? known.median() : otherwise;
    }
}
