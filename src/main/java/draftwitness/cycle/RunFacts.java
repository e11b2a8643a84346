package draftwitness.cycle;

import java.util.List;
import java.util.Map;

/**
 * What one run of the inducer showed.
 *
 * @param proofNanos when air flow was proved, {@link Long#MAX_VALUE} if never
 * @param closedBefore whether the contact was closed before the start
 * @param burns oldest first
 * @param draftLost for each burn, whether the contact opened long enough at its end to stop it
 * @param phases in order
 * @param samples suctions that count for the margin
 * @param transitions of the contact once proved
 * @param makePascals suction when the contact made, or NaN
 * @param callEnded whether the call for heat was seen to end during the run
 * @param callKnown whether a channel tells the call
 * @param episodes by start time
 * @param levels of the taps
 */
record RunFacts(
        RunSpan span,
        long proofNanos,
        boolean closedBefore,
        List<Burn> burns,
        List<Boolean> draftLost,
        List<PhaseSpan> phases,
        Map<Phase, MarginSamples> samples,
        int transitions,
        double makePascals,
        boolean callKnown,
        boolean callEnded,
        List<Episode> episodes,
        List<TapLevels> levels) {
    boolean proved() {
        return proofNanos != Long.MAX_VALUE;
    }
}
