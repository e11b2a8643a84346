package draftwitness.dashboard;

import draftwitness.reading.Step;
import draftwitness.reading.Tap;
import org.jspecify.annotations.Nullable;

/**
 * Where drawings get their readings from: a live session's memory, or a recording file that is never loaded whole.
 *
 * <p>Implementations say which threads may call. Those that read files may block; the screen asks them on a thread of
 * its own. They report a file that cannot be read by {@link java.io.UncheckedIOException}.
 */
public interface SeriesWindows {

    /** From the first reading or event to where time has come; empty span at 0 when there is nothing yet. */
    TimeSpan extent();

    /** The readings of a tap's channel summed up by columns; all empty for a tap without a channel. */
    Columns columns(Tap tap, ColumnGrid grid);

    /** The latest reading of a tap at or before a time, or null when there is none. */
    @Nullable
    Sample readingAt(Tap tap, long nanos);

    /** Rises when the same question may be answered better than before; cheap, any thread. */
    default long revision() {
        return 0;
    }

    /** The step of a tap's readings, or null before the first. */
    @Nullable
    Step step(Tap tap);
}
