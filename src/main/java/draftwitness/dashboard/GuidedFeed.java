package draftwitness.dashboard;

import draftwitness.diagnosis.guided.GuidedNow;
import draftwitness.diagnosis.guided.GuidedPlan;
import draftwitness.diagnosis.guided.GuidedRun;
import draftwitness.diagnosis.guided.Terms;
import draftwitness.reading.SessionHeader;
import draftwitness.reading.SessionListener;
import draftwitness.reading.Slice;
import draftwitness.reading.Zeros;
import org.jspecify.annotations.Nullable;

/**
 * Hands a live session's slices to the guided measurement that is being made, if any. The pipeline thread feeds it; any
 * thread gives commands and asks how it stands.
 */
public final class GuidedFeed implements SessionListener {
    private final Zeros zeros = new Zeros();
    private @Nullable SessionHeader header;
    private @Nullable GuidedRun run;
    private long nowNanos;

    @Override
    public synchronized void begin(SessionHeader begun) {
        header = begun;
    }

    @Override
    public synchronized void slice(Slice slice) {
        zeros.slice(slice);
        nowNanos = slice.endNanos();
        if (run != null) {
            run.slice(slice);
        }
    }

    @Override
    public synchronized void end() {
        stop();
    }

    /** What is known of the session, or null before it began. */
    public synchronized @Nullable SessionHeader header() {
        return header;
    }

    /** Makes a measurement ready, in place of an earlier one. */
    synchronized void prepare(GuidedPlan plan, Terms terms) {
        run = new GuidedRun(plan, terms, zeros);
    }

    synchronized void forget() {
        run = null;
    }

    /** Begins a part with the next reading. */
    synchronized void begin(String part) {
        if (run != null) {
            run.begin(part, nowNanos);
        }
    }

    /** Ends the part that is running. */
    synchronized void stop() {
        if (run != null) {
            run.stop(nowNanos);
        }
    }

    /** How the measurement stands; null if there is none. */
    synchronized @Nullable GuidedNow now() {
        return run == null ? null : run.now();
    }
}
