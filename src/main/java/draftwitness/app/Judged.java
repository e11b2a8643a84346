package draftwitness.app;

import draftwitness.cycle.CycleAnalyzer;
import draftwitness.cycle.CycleReport;
import draftwitness.cycle.SessionSummarizer;
import draftwitness.cycle.SessionSummary;
import draftwitness.reading.Slice;
import draftwitness.reading.Zeros;
import draftwitness.recording.RecordingException;
import draftwitness.recording.RecordingFile;
import draftwitness.setup.Setup;
import java.util.concurrent.CancellationException;
import java.util.function.LongPredicate;

/**
 * A whole recording judged: what it holds and what the furnace did in it.
 *
 * @param summary channels, readings, gaps
 * @param cycles cycles, findings, lockouts
 */
public record Judged(SessionSummary summary, CycleReport cycles) {

    /** Reads a recording from begin to end, with its zeros taken off. */
    public static Judged of(RecordingFile recording, Setup setup) throws RecordingException {
        return of(recording, setup, recording.zeros(), nanos -> true);
    }

    /**
     * Reads a recording from begin to end.
     *
     * @param zeros to take off
     * @param goOn told after each slice up to which session time was read, in nanoseconds; false to stop
     * @throws CancellationException if it was stopped
     */
    public static Judged of(RecordingFile recording, Setup setup, Zeros zeros, LongPredicate goOn)
            throws RecordingException {
        SessionSummarizer summarizer = new SessionSummarizer();
        CycleAnalyzer analyzer = new CycleAnalyzer(setup);
        summarizer.begin(recording.header());
        analyzer.begin(recording.header());
        recording.forEachSlice(Long.MIN_VALUE, Long.MAX_VALUE, kept -> {
            Slice slice = zeros.zeroed(kept);
            summarizer.slice(slice);
            analyzer.slice(slice);
            if (!goOn.test(slice.endNanos())) {
                throw new CancellationException("stopped reading " + recording.file());
            }
        });
        summarizer.end();
        analyzer.end();
        return new Judged(summarizer.summary(), analyzer.report());
    }
}
