package draftwitness.reading;

import java.util.List;

/**
 * Everything that a session brought in one cell of a fixed time grid: the unit of hand-over from capture or replay to
 * recording, analysis, screen and bridge. Slices come in order of {@code index} without holes, empty ones included, so
 * that time is seen to pass while instruments are silent.
 *
 * <p>A cell covers session times from {@code index * CELL_NANOS} (inclusive) to {@code (index + 1) * CELL_NANOS}
 * (exclusive). A reading that arrived too late for its own cell travels in the next one that is open, with its own
 * time.
 *
 * @param index cell number
 * @param blocks blocks in the order of the session's channels; a channel may have several when its step changes
 * @param events changes of sources' states, oldest first
 */
public record Slice(long index, List<Block> blocks, List<SourceEvent> events) {
    /** Width of a cell: 100 ms. */
    public static final long CELL_NANOS = 100_000_000;

    public Slice {
        blocks = List.copyOf(blocks);
        events = List.copyOf(events);
    }

    /** End of the cell in session time (exclusive), in nanoseconds. */
    public long endNanos() {
        return (index + 1) * CELL_NANOS;
    }

    /** The cell that holds a session time; also for negative times. */
    public static long indexOf(long timeNanos) {
        return Math.floorDiv(timeNanos, CELL_NANOS);
    }

    public boolean isEmpty() {
        return blocks.isEmpty() && events.isEmpty();
    }
}
