package draftwitness.cycle;

import draftwitness.reading.Tap;
import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * All that the judges of a run need to see.
 *
 * @param suction at the judged tap
 * @param level median suction once proved, NaN if never
 * @param steadyFrom end of spin-up, or the stop if never proved
 * @param steadyTo when suction left its level
 */
record RunView(
        RunSpan span,
        Tap tap,
        Suction suction,
        double level,
        long steadyFrom,
        long steadyTo,
        List<Burn> burns,
        List<PhaseSpan> phases,
        CycleSettings settings,
        Wording words) {

    /** The phase at a time: the last one that began, or null before the first. */
    @Nullable
    PhaseSpan phaseAt(long time) {
        PhaseSpan found = null;
        for (PhaseSpan p : phases) {
            if (p.startNanos() <= time) {
                found = p;
            }
        }
        return found;
    }

    /** Where a time lies, in words. */
    String where(long time) {
        PhaseSpan phase = phaseAt(time);
        return phase == null ? "before the start" : Wording.into(phase, time);
    }

    Episode episode(EpisodeKind kind, long from, long to, Tap at, Evidence evidence, String text) {
        PhaseSpan phase = phaseAt(from);
        return new Episode(kind, from, Math.max(from, to), phase == null ? null : phase.phase(), at, evidence, text);
    }

    /** Whether a time is within the light-off that does not count. */
    boolean lightOff(long time) {
        long after = CycleSettings.nanos(settings.afterLightOff());
        for (Burn b : burns) {
            if (time >= b.lightOffNanos() && time < b.lightOffNanos() + after) {
                return true; // also where gas did not burn for long: its first flame may have been what broke the draft
            }
        }
        return false;
    }
}
