package draftwitness.cycle;

import draftwitness.reading.SessionHeader;
import draftwitness.reading.SessionListener;
import draftwitness.reading.Slice;
import draftwitness.setup.Setup;
import java.util.List;

/**
 * What the furnace did and where it stands, for others to look at while the session goes on.
 *
 * <p>Give it to a session, live or replayed, as one more listener: the thread that calls its listeners (the pipeline)
 * owns it and does all the work. Any other thread calls {@link #snapshot} at its own pace, for example by a screen
 * timer; that never waits and never makes the pipeline wait. A reader who only wants news compares
 * {@link LiveSnapshot#number}.
 *
 * <p>How often: what {@link Now} says is published every {@value #EVERY_MILLIS} ms of session time. The report is made
 * anew when something changed (inducer, contact, gas, call, suction across the set point) and otherwise each time that
 * the present run or pause has grown by a thirtieth, since judging a run costs as much as it is long; so the cost of a
 * run grows with its length, not with its square. Publications depend on session time alone, so a replay at any speed
 * publishes the same snapshots. After {@link #end} the report is the one that a {@link CycleAnalyzer} gives for the
 * whole session.
 */
public final class LiveReport implements SessionListener {
    private static final int EVERY_MILLIS = 500;
    private static final long EVERY = EVERY_MILLIS * 1_000_000L;
    private static final int SHARE = 30;

    /** After a change: at most so much of the run's length, so that a fluttering contact costs little. */
    private static final int SHARE_AFTER_CHANGE = 600;

    private final CycleAnalyzer analyzer;
    private volatile LiveSnapshot published = nothing();
    private long lookedAt = Long.MIN_VALUE / 2;
    private long judgedAt = Long.MIN_VALUE / 2;
    private Progress progress = none();
    private Glance judged = new Glance(0, false, false, 0, null, null, false, null, Double.NaN);

    /**
     * A report for one session.
     *
     * @param setup what is known of the appliance
     */
    public LiveReport(Setup setup) {
        analyzer = new CycleAnalyzer(setup);
    }

    private static Progress none() {
        return new Progress(new CycleReport(List.of(), List.of(), List.of()), List.of(), false, null, null);
    }

    private static LiveSnapshot nothing() {
        return new LiveSnapshot(0, none().report(), 0, Now.nothing(), false);
    }

    /** The newest state; never waits. For any thread. */
    public LiveSnapshot snapshot() {
        return published;
    }

    @Override
    public void begin(SessionHeader header) {
        analyzer.begin(header);
        lookedAt = Long.MIN_VALUE / 2;
        judgedAt = Long.MIN_VALUE / 2;
        progress = none();
        published = nothing();
    }

    @Override
    public void slice(Slice slice) {
        analyzer.slice(slice);
        long at = slice.endNanos();
        if (at - lookedAt < EVERY) {
            return;
        }
        lookedAt = at;
        Glance glance = analyzer.glance();
        if (due(glance, at)) {
            judge(glance, at);
        }
        publish(glance, false);
    }

    private boolean due(Glance glance, long at) {
        long lasts = Math.max(0, at - glance.sinceNanos());
        return at - judgedAt >= Math.max(EVERY, lasts / (glance.differs(judged) ? SHARE_AFTER_CHANGE : SHARE));
    }

    private void judge(Glance glance, long at) {
        judgedAt = at;
        judged = glance;
        progress = analyzer.progress();
    }

    private void publish(Glance glance, boolean ended) {
        long number = published.number() + 1;
        published = new LiveSnapshot(number, progress.report(), judgedAt, analyzer.tell(glance, progress), ended);
    }

    @Override
    public void end() {
        analyzer.end();
        Glance glance = analyzer.glance();
        judge(glance, Math.max(lookedAt, glance.atNanos()));
        publish(glance, true);
    }
}
