package draftwitness.cycle;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;

/**
 * Makes one cycle of the inducer runs of one call. Pure.
 *
 * <p>How the outcome is found: failed attempts are counted as a burner control counts them (not proved, not lit, flame
 * or draft lost; a stable run forgets them). The last burn decides: if nothing says that it failed, the call was
 * satisfied.
 */
final class CycleBuilder {
    /** The longest purge between two trials that is thought of, s. */
    private static final double LONGEST_INTER_PURGE = 45;

    private final CycleSettings settings;
    private final boolean fireKnown;
    private final List<RunFacts> runs;
    private int failures;
    private @Nullable Outcome lastFailure;
    private boolean heated;
    private boolean lasting;

    CycleBuilder(CycleSettings settings, boolean fireKnown, List<RunFacts> runs) {
        this.settings = settings;
        this.fireKnown = fireKnown;
        this.runs = runs;
        for (int i = 0; i < runs.size(); i++) {
            count(runs.get(i), i == runs.size() - 1);
        }
    }

    /** Whether all attempts are used up. */
    boolean lockedOut() {
        return !heated && failures >= settings.sequence().attempts();
    }

    private void count(RunFacts run, boolean last) {
        lasting = last && run.span().lasting();
        if (run.burns().isEmpty()) {
            withoutBurn(run, last);
        }
        for (int i = 0; i < run.burns().size(); i++) {
            boolean lastBurn = last && i == run.burns().size() - 1;
            burn(run, run.burns().get(i), run.draftLost().get(i), lastBurn);
        }
    }

    private void withoutBurn(RunFacts run, boolean last) {
        if (last && (run.callEnded() || run.span().lasting())) {
            return; // the call ended, or the recording did, before anything could fail
        }
        CycleSettings s = settings;
        double lasted =
                (run.span().stopNanos() - Math.min(run.proofNanos(), run.span().stopNanos())) / 1e9;
        double one = s.sequence().igniterWarmUp() + s.sequence().trialForIgnition();
        double givenUp = s.sequence().prePurge() + s.sequence().attempts() * (one + LONGEST_INTER_PURGE);
        if (run.proved() && !fireKnown && lasted > givenUp) {
            // A control that sees no flame would have given up long before: it burned, too quietly for the draft to
            // show.
            heated = last;
            failures = 0;
        } else if (!run.proved()) {
            fail(Outcome.FAILED_TO_PROVE);
        } else if (!fireKnown && lasted > s.sequence().prePurge() + 0.8 * one) {
            fail(Outcome.FAILED_TO_LIGHT);
            // Without a gas channel the trials are not seen; the time tells how many there was room for.
            if (lasted > s.sequence().prePurge() + 0.9 * one * s.sequence().attempts()) {
                failures = Math.max(failures, s.sequence().attempts());
            }
        } else {
            fail(Outcome.FAILED_TO_PROVE);
        }
    }

    private void burn(RunFacts run, Burn b, boolean draftLost, boolean last) {
        heated = false;
        boolean stable = b.offNanos() - b.onNanos() >= CycleSettings.nanos(settings.stableRun());
        if (!b.lit()) {
            if (draftLost) {
                fail(Outcome.DRAFT_LOST);
            } else if (last && !b.lasting() && !run.callEnded() && shorterThanATrial(b)) {
                heated = true;
            } else if (!(last && (b.lasting() || run.callEnded()))) {
                fail(Outcome.FAILED_TO_LIGHT);
            }
            return;
        }
        if (stable) {
            failures = 0;
        }
        boolean flameLost = (b.flameWentFirst() && !run.callEnded()) || (run.callKnown() && !run.callEnded());
        if (!last) {
            fail(draftLost ? Outcome.DRAFT_LOST : Outcome.FLAME_LOST);
        } else if (b.lasting()) {
            heated = run.callEnded();
        } else if (draftLost) {
            fail(Outcome.DRAFT_LOST);
        } else if (flameLost || (!run.callKnown() && lastOfMany(stable))) {
            fail(flameLost || lastFailure == null ? Outcome.FLAME_LOST : lastFailure);
        } else {
            heated = true;
        }
    }

    /**
     * A short burn after as many failures as leave one attempt: the last attempt, failed like those before, rather than
     * a call that happened to end just then.
     */
    private boolean lastOfMany(boolean stable) {
        return !stable
                && (lastFailure == Outcome.FLAME_LOST || lastFailure == Outcome.DRAFT_LOST)
                && failures > 0
                && failures == settings.sequence().attempts() - 1;
    }

    /**
     * A trial that fails lasts as long as the control allows. Gas that was shut earlier, with the draft in order, was
     * shut because the call ended, unless another trial of this call was as short: then that is how long they last
     * here.
     */
    private boolean shorterThanATrial(Burn b) {
        double lasted = (b.offNanos() - b.onNanos()) / 1e9;
        if (lasted > settings.sequence().trialForIgnition() - 0.5) {
            return false;
        }
        for (RunFacts r : runs) {
            for (Burn other : r.burns()) {
                double its = (other.offNanos() - other.onNanos()) / 1e9;
                if (other.onNanos() != b.onNanos() && !other.lit() && Math.abs(its - lasted) < 0.4) {
                    return false;
                }
            }
        }
        return true;
    }

    private void fail(Outcome why) {
        failures++;
        lastFailure = why;
    }

    /**
     * The cycle.
     *
     * @param settled whether no further inducer run can belong to it
     */
    Cycle build(int index, boolean settled) {
        RunFacts first = runs.get(0);
        RunFacts last = runs.get(runs.size() - 1);
        List<Episode> episodes = new ArrayList<>();
        List<TapLevels> levels = new ArrayList<>();
        int attempts = 0;
        int transitions = 0;
        Map<Phase, MarginSamples> samples = new EnumMap<>(Phase.class);
        for (RunFacts r : runs) {
            episodes.addAll(r.episodes());
            levels.addAll(r.levels());
            attempts += Math.max(1, r.burns().size());
            transitions += r.transitions();
            r.samples().forEach((phase, s) -> samples.merge(phase, s, MarginSamples::and));
        }
        episodes.sort(Comparator.comparingLong(Episode::startNanos).thenComparing(Episode::kind));
        samples.remove(Phase.POST_PURGE);
        MarginSamples all = samples.values().stream().reduce(MarginSamples::and).orElse(null);
        Map<Phase, Margin> byPhase = new EnumMap<>(Phase.class);
        samples.forEach((phase, s) -> {
            Margin m = s.margin(settings);
            if (m != null) {
                byPhase.put(phase, m);
            }
        });
        Outcome outcome = outcome(settled);
        return new Cycle(
                index,
                first.span().startNanos(),
                last.span().endNanos(),
                outcome,
                outcome == Outcome.LOCKOUT ? lastFailure : null,
                attempts,
                phases(),
                all == null ? null : all.margin(settings),
                byPhase,
                all == null ? Double.NaN : all.median(),
                transitions,
                episodes,
                levels,
                settled);
    }

    private Outcome outcome(boolean settled) {
        if (lockedOut()) {
            return Outcome.LOCKOUT;
        }
        if (heated) {
            return Outcome.HEATED;
        }
        if (!settled || lasting || lastFailure == null) {
            return Outcome.INCOMPLETE;
        }
        return lastFailure;
    }

    private List<PhaseSpan> phases() {
        List<PhaseSpan> out = new ArrayList<>();
        for (int i = 0; i < runs.size(); i++) {
            List<PhaseSpan> here = new ArrayList<>(runs.get(i).phases());
            if (i + 1 < runs.size()) {
                // Whatever lies between the end of an attempt and the next start is one recycle.
                long from = runs.get(i).span().stopNanos();
                if (!here.isEmpty() && here.get(here.size() - 1).phase() == Phase.POST_PURGE) {
                    from = here.remove(here.size() - 1).startNanos();
                }
                long to = runs.get(i + 1).span().startNanos();
                here.add(new PhaseSpan(Phase.RECYCLE, from, Math.max(from, to)));
            }
            out.addAll(here);
        }
        return out;
    }
}
