package draftwitness.app;

import draftwitness.cycle.CycleAnalyzer;
import draftwitness.cycle.CycleReport;
import draftwitness.cycle.SessionSummarizer;
import draftwitness.cycle.SessionSummary;
import draftwitness.recording.RecordingException;
import draftwitness.recording.RecordingFile;
import draftwitness.setup.Setup;

/**
 * A whole recording judged: what it holds and what the furnace did in it.
 *
 * @param summary channels, readings, gaps
 * @param cycles cycles, findings, lockouts
 */
public record Judged(SessionSummary summary, CycleReport cycles) {

    /** Reads a recording from begin to end. */
    public static Judged of(RecordingFile recording, Setup setup) throws RecordingException {
        SessionSummarizer summarizer = new SessionSummarizer();
        CycleAnalyzer analyzer = new CycleAnalyzer(setup);
        summarizer.begin(recording.header());
        analyzer.begin(recording.header());
        recording.forEachSlice(Long.MIN_VALUE, Long.MAX_VALUE, slice -> {
            summarizer.slice(slice);
            analyzer.slice(slice);
        });
        summarizer.end();
        analyzer.end();
        return new Judged(summarizer.summary(), analyzer.report());
    }
}
