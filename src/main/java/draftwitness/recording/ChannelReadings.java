package draftwitness.recording;

import draftwitness.reading.Step;
import org.jspecify.annotations.Nullable;

/** Steps through the readings of one channel in a window, oldest first, with bounded memory. One owner thread. */
final class ChannelReadings {
    private final StretchCursor cursor;
    private final long timeStepNanos;
    private final long fromNanos;
    private final long toNanos;
    private @Nullable Stretch stretch;
    private int runIndex;
    private int position;
    private long timeNanos = Long.MIN_VALUE;
    private @Nullable Run run;

    ChannelReadings(StretchCursor cursor, long timeStepNanos, long fromNanos, long toNanos) {
        this.cursor = cursor;
        this.timeStepNanos = timeStepNanos;
        this.fromNanos = fromNanos;
        this.toNanos = toNanos;
    }

    /** Goes to the next reading; false when there is none. */
    boolean next() throws RecordingException {
        while (true) {
            Run current = run;
            if (current != null && ++position < current.size) {
                long time = current.times[position] * timeStepNanos;
                if (time >= toNanos) {
                    return false;
                }
                if (time >= fromNanos && time > timeNanos) {
                    timeNanos = time;
                    return true;
                }
            } else if (!nextRun()) {
                return false;
            }
        }
    }

    private boolean nextRun() throws RecordingException {
        position = -1;
        while (stretch == null || ++runIndex >= stretch.runs.size()) {
            stretch = cursor.next();
            runIndex = -1;
            if (stretch == null) {
                run = null;
                return false;
            }
        }
        run = stretch.runs.get(runIndex);
        return true;
    }

    long timeNanos() {
        return timeNanos;
    }

    long count() {
        return run == null ? 0 : run.counts[position];
    }

    Step step() {
        if (run == null) {
            throw new IllegalStateException("no reading");
        }
        return run.step;
    }
}
