package draftwitness.recording;

import draftwitness.reading.Slice;

/**
 * What stays at full rate in an unattended recording. Everything else keeps its overview, its events and its place.
 *
 * @param memoryNanos the latest so much stays at full rate whatever happens, so that an episode can still claim what
 *     led up to it; at least as long as it may take to find an episode
 * @param marginNanos full rate is kept so much before and after each claimed span
 * @param budgetBytes the file may not become larger; {@link Long#MAX_VALUE} for no limit. When it is reached, the
 *     oldest full-rate rows are thinned, claimed or not, down to the memory; where that is not enough, recording ends
 *     in good order
 */
public record KeepPolicy(long memoryNanos, long marginNanos, long budgetBytes) {
    public KeepPolicy {
        if (memoryNanos < 0 || marginNanos < 0 || budgetBytes < 1) {
            throw new IllegalArgumentException("a memory of " + memoryNanos + " ns, a margin of " + marginNanos
                    + " ns and a budget of " + budgetBytes + " bytes");
        }
    }

    /** First cell of the memory when so much was recorded. */
    long memoryBegins(long endCell) {
        return endCell - Math.floorDiv(memoryNanos + Slice.CELL_NANOS - 1, Slice.CELL_NANOS);
    }
}
