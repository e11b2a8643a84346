package draftwitness.cycle;

import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * The report so far and what is still open in it.
 *
 * @param open inducer runs of the call that is not settled, oldest first; may be empty
 * @param lastRunLasts whether the last of them goes on
 * @param openOutcome how the open call would end if nothing followed, or null without one
 * @param lockedSinceNanos when the control gave up, or null
 */
record Progress(
        CycleReport report,
        List<RunFacts> open,
        boolean lastRunLasts,
        @Nullable Outcome openOutcome,
        @Nullable Long lockedSinceNanos) {}
