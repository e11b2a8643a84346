package draftwitness.dashboard;

import draftwitness.cycle.Cycle;
import draftwitness.cycle.Phase;
import draftwitness.cycle.PhaseSpan;

/**
 * A cycle that may be laid over another. Immutable.
 *
 * @param recording name of the recording it is from
 * @param when its time of day, or its time from the recording's start
 * @param cycle what the furnace did in it
 * @param draft readings of the draft around it, from {@link CompareModel#BEFORE_NANOS} before its start
 */
public record ComparedCycle(String recording, String when, Cycle cycle, Columns draft) {

    /** How it stands in a list. */
    public String label() {
        return Words.get(
                "compare.cycle",
                recording,
                String.valueOf(cycle.index()),
                when,
                cycle.outcome().id());
    }

    /** Median suction once proved, in pascals; NaN when unknown. */
    double levelPascals() {
        return cycle.plateauPascals();
    }

    /** First percentile of suction beyond the set point, in pascals; NaN when unknown. */
    double marginPascals() {
        return cycle.margin() == null ? Double.NaN : cycle.margin().p01Pascals();
    }

    /** From the inducer's start until the switch was proved, in seconds; NaN when that cannot be told. */
    double spinUpSeconds() {
        for (PhaseSpan span : cycle.phases()) {
            if (span.phase() == Phase.SPIN_UP) {
                return (span.endNanos() - span.startNanos()) / 1e9;
            }
        }
        return Double.NaN;
    }

    /** From start to end, in seconds. */
    double lengthSeconds() {
        return (cycle.endNanos() - cycle.startNanos()) / 1e9;
    }
}
