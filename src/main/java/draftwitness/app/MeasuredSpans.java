package draftwitness.app;

import draftwitness.diagnosis.guided.GuidedRun;
import draftwitness.reading.Slice;
import draftwitness.reading.SourceEvent;
import draftwitness.reading.Zeros;
import draftwitness.recording.RecordingException;
import draftwitness.recording.RecordingFile;
import draftwitness.recording.SliceCursor;
import java.util.List;
import java.util.function.BooleanSupplier;

/** Feeds spans of recordings to a guided measurement, as the session once did. One owner thread. */
public final class MeasuredSpans {
    /** Read before the span, for contacts that only tell their changes. */
    private static final long LEAD_NANOS = 600_000_000_000L;

    private MeasuredSpans() {}

    /**
     * Takes a part from a span of a recording; zeros learned before it are taken off.
     *
     * @param fromNanos inclusive
     * @param toNanos exclusive
     * @param cancelled asked between slices; what was read by then counts
     */
    public static void take(
            RecordingFile file, GuidedRun run, String part, long fromNanos, long toNanos, BooleanSupplier cancelled)
            throws RecordingException {
        Zeros zeros = new Zeros();
        long first = fromNanos - LEAD_NANOS;
        List<SourceEvent> before =
                file.events().stream().filter(e -> e.timeNanos() < first).toList();
        zeros.slice(new Slice(0, List.of(), before));
        run.continueWith(zeros);
        run.begin(part, fromNanos, toNanos);
        SliceCursor cursor = file.slices(first, toNanos);
        for (Slice slice = cursor.next(); slice != null && !cancelled.getAsBoolean(); slice = cursor.next()) {
            Slice each = slice;
            zeros.slice(new Slice(
                    each.index(),
                    List.of(),
                    each.events().stream().filter(e -> e.timeNanos() >= first).toList()));
            run.slice(each);
        }
        run.stop(toNanos);
    }
}
