package draftwitness.app;

import draftwitness.dashboard.GuidedModel;
import draftwitness.dashboard.TimeSpan;
import draftwitness.diagnosis.guided.GuidedRun;
import draftwitness.recording.RecordingException;
import draftwitness.recording.RecordingFile;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.util.function.BooleanSupplier;

/** Spans of an opened recording for guided measurements on screen. Any thread, one at a time. */
final class GuidedSpans implements GuidedModel.Spans {
    private final RecordingFile file;

    /** Reads from a recording that stays the caller's to close. */
    GuidedSpans(RecordingFile file) {
        this.file = file;
    }

    @Override
    public void take(GuidedRun run, String part, TimeSpan span, BooleanSupplier cancelled) {
        try {
            MeasuredSpans.take(file, run, part, span.fromNanos(), span.toNanos(), cancelled);
        } catch (RecordingException e) {
            throw new UncheckedIOException(new IOException(e.getMessage(), e));
        }
    }
}
