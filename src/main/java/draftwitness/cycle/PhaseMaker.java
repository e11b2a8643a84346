package draftwitness.cycle;

import java.util.ArrayList;
import java.util.List;

/**
 * Lays the phases of one inducer run end to end. Pure. A phase that the channels cannot tell is part of the one before.
 */
final class PhaseMaker {
    private final CycleSettings settings;
    private final boolean gasKnown;

    PhaseMaker(CycleSettings settings, boolean gasKnown) {
        this.settings = settings;
        this.gasKnown = gasKnown;
    }

    List<PhaseSpan> make(RunSpan span, long proof, List<Burn> burns) {
        List<PhaseSpan> out = new ArrayList<>();
        long proved = Math.min(proof, span.stopNanos());
        add(out, Phase.SPIN_UP, span.startNanos(), proved);
        long cursor = proved;
        Phase waiting = Phase.PRE_PURGE;
        for (Burn b : burns) {
            long on = Math.max(cursor, Math.min(b.onNanos(), span.stopNanos()));
            long off = Math.max(on, Math.min(b.offNanos(), span.stopNanos()));
            before(out, waiting, cursor, on);
            if (!b.lit()) {
                add(out, Phase.TRIAL, on, off);
            } else {
                long flame = Math.max(on, Math.min(b.flameNanos(), off));
                add(out, Phase.TRIAL, on, flame);
                add(out, Phase.RUN, flame, off);
            }
            cursor = off;
            waiting = Phase.RECYCLE;
        }
        boolean purged = burns.isEmpty() && proof != Long.MAX_VALUE;
        add(out, purged ? Phase.PRE_PURGE : Phase.POST_PURGE, cursor, span.stopNanos());
        return out;
    }

    /** Purge, and the igniter's warm-up where gas is seen and the times fit the settings. */
    private void before(List<PhaseSpan> out, Phase waiting, long from, long on) {
        double warmUp = settings.sequence().igniterWarmUp();
        double lasted = (on - from) / 1e9;
        double planned = settings.sequence().prePurge() + warmUp;
        boolean fits = waiting == Phase.RECYCLE
                ? lasted > warmUp + 1
                : Math.abs(lasted - planned) <= 0.2 * planned + 1 && lasted > warmUp;
        if (gasKnown && warmUp > 0 && fits) {
            long split = on - CycleSettings.nanos(warmUp);
            add(out, waiting, from, split);
            add(out, Phase.IGNITER_WARM_UP, split, on);
        } else {
            add(out, waiting, from, on);
        }
    }

    private static void add(List<PhaseSpan> out, Phase phase, long from, long to) {
        if (to > from) {
            out.add(new PhaseSpan(phase, from, to));
        }
    }
}
