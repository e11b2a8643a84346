package draftwitness.cycle;

import draftwitness.reading.Block;
import draftwitness.reading.SessionHeader;
import draftwitness.reading.SessionListener;
import draftwitness.reading.Slice;
import draftwitness.reading.Tap;
import draftwitness.setup.Setup;
import draftwitness.signal.LevelWindow;
import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * Reads the heating cycles out of a session as it goes by: live, replayed or from a file, with the same results.
 *
 * <p>How it works: each channel is condensed into looks of 50 ms. A detector tells inducer runs from idle. When a run
 * is over and its tail was seen, all channels' looks around it are judged at once, so light-off, the begin of the
 * coast-down and the levels of a phase are known before anything is said about them. Runs of one call are joined into a
 * cycle; it is complete when no retry can follow any more. Memory is bounded by the longest run kept sharp (seven
 * hours), not by the session.
 *
 * <p>One owner thread; {@link #report} may be asked for at any time and includes what is provisional.
 */
public final class CycleAnalyzer implements SessionListener {
    private static final long SECOND = 1_000_000_000;

    /** Channels may be late against each other by so much. */
    private static final long LATENESS = SECOND;

    private static final long KEPT_BEFORE = 60 * SECOND;
    private static final int MOST_RUNS = 200;

    /** A contact closed at idle for longer does not keep a call open: it is stuck. */
    private static final long LONGEST_WAIT = 1200 * SECOND;

    private final Setup setup;
    private @Nullable State state;

    /**
     * An analyzer for one session.
     *
     * @param setup what is known of the appliance; usually the one kept with the session
     */
    public CycleAnalyzer(Setup setup) {
        this.setup = setup;
    }

    @Override
    public void begin(SessionHeader header) {
        state = new State(header, CycleSettings.of(setup));
    }

    @Override
    public void slice(Slice slice) {
        if (state == null) {
            throw new IllegalStateException("slice " + slice.index() + " came before the session began");
        }
        state.slice(slice);
    }

    @Override
    public void end() {
        if (state != null) {
            state.end();
        }
    }

    /** What the furnace did so far. */
    public CycleReport report() {
        return state == null ? new CycleReport(List.of(), List.of(), List.of()) : state.report();
    }

    /** The report with what is open in it; before the session begins nothing. */
    Progress progress() {
        return state == null ? new Progress(report(), List.of(), false, null, null) : state.progress();
    }

    /** What can be said without judging a run. */
    Glance glance() {
        return state == null ? new Glance(0, false, false, 0, null, null, false, null, Double.NaN) : state.glance();
    }

    /** Where the furnace stands by a glance and the newest progress. */
    Now tell(Glance glance, Progress progress) {
        return state == null ? Now.nothing() : state.tell(glance, progress);
    }

    /** What is known of one session. */
    private static final class State {
        private final CycleSettings settings;
        private final Sources sources;
        private final RunDetector detector;
        private final RunEvaluator evaluator;
        private final @Nullable Track sequence;
        private final boolean fireKnown;
        private final FindingMaker findings;
        private final List<Cycle> cycles = new ArrayList<>();
        private final List<RunFacts> call = new ArrayList<>();
        private final LevelWindow spinUps = new LevelWindow(101);
        private final List<Gap> lockouts = new ArrayList<>();
        private long lockedSince = Long.MIN_VALUE;
        private long now = Long.MIN_VALUE;
        private boolean ended;
        private final NowTeller teller;
        private final GlanceTaker glances;

        State(SessionHeader header, CycleSettings settings) {
            this.settings = settings;
            sources = new Sources(header.channels(), settings);
            detector = new RunDetector(settings);
            evaluator = new RunEvaluator(sources, settings);
            sequence = sources.sequence();
            fireKnown = new BurnFinder(sources, settings).fireKnown();
            findings = new FindingMaker(settings, sources);
            teller = new NowTeller(settings, evaluator.gasKnown());
            glances = new GlanceTaker(sources, detector, settings);
        }

        Glance glance() {
            return glances.take(now);
        }

        Now tell(Glance glance, Progress progress) {
            teller.learn(progress.report().cycles());
            return teller.tell(glance, progress);
        }

        void slice(Slice slice) {
            for (Block block : slice.blocks()) {
                sources.add(block);
            }
            now = slice.endNanos() - LATENESS;
            advance(now - 2 * Track.LOOK_NANOS);
        }

        private void advance(long until) {
            if (sequence == null) {
                return;
            }
            for (Track track : sources.tracks()) {
                track.closeBefore(until + Track.LOOK_NANOS);
            }
            for (RunSpan span : detector.advance(sequence, until)) {
                run(evaluator.evaluate(span, sequence));
            }
            if (detector.idle()) {
                settle(until);
                findings.standby(Math.min(until, lastSeen()), call.isEmpty() ? Long.MIN_VALUE : lastEnd());
            }
            long needed = Math.min(detector.needed(), until) - KEPT_BEFORE;
            if (!call.isEmpty()) {
                needed = Math.min(needed, lastEnd() - KEPT_BEFORE);
            }
            sources.dropBefore(needed);
        }

        void end() {
            if (ended) {
                return;
            }
            ended = true;
            sources.close();
            advance(Long.MAX_VALUE / 2);
        }

        private long lastEnd() {
            return call.get(call.size() - 1).span().endNanos();
        }

        private void run(RunFacts run) {
            if (lockedSince != Long.MIN_VALUE) {
                lockouts.add(new Gap(
                        lockedSince, Math.max(lockedSince + 1, run.span().startNanos())));
                lockedSince = Long.MIN_VALUE;
            }
            if (!call.isEmpty() && (!belongs(run) || call.size() >= MOST_RUNS)) {
                close();
            }
            call.add(late(run));
            findings.run(run);
        }

        private boolean belongs(RunFacts run) {
            RunFacts before = call.get(call.size() - 1);
            long pause =
                    run.span().startNanos() - mayStartFrom(before, run.span().startNanos());
            return pause <= CycleSettings.nanos(settings.sequence().retryMax())
                    && !callEnded(before, run.span().startNanos());
        }

        /**
         * From when on a control could have started again: the stop, or when the contact last opened after it. A
         * control does not start while it sees the contact closed with the inducer off.
         */
        private long mayStartFrom(RunFacts before, long until) {
            long from = before.span().stopNanos();
            StateTrack contact = sources.states(Tap.CONTACT_SWITCH);
            if (contact == null) {
                return from;
            }
            long[] changes = contact.changes(from, until + 1);
            int last = changes.length - 1;
            if (last >= 0 && contact.at(changes[last])) {
                last--;
            }
            return last >= 0 ? changes[last] : from;
        }

        private boolean callEnded(RunFacts before, long until) {
            StateTrack calling = sources.states(Tap.CONTACT_CALL);
            return calling != null && calling.next(false, before.span().startNanos() + SECOND, until) != Long.MAX_VALUE;
        }

        /** Adds a late proving to a run whose spin-up took far longer than usual. */
        private RunFacts late(RunFacts run) {
            if (!run.proved() || !run.span().startSeen()) {
                return run;
            }
            double took = (run.proofNanos() - run.span().startNanos()) / 1e9;
            double usual = spinUps.median();
            spinUps.add(took);
            return took > settings.lateFloor() && (Double.isNaN(usual) || took > settings.lateFactor() * usual)
                    ? findings.withLateProving(run, took, usual)
                    : run;
        }

        private void settle(long until) {
            if (call.isEmpty()) {
                return;
            }
            RunFacts last = call.get(call.size() - 1);
            long reached = Math.min(until, lastSeen());
            StateTrack contact = sources.states(Tap.CONTACT_SWITCH);
            boolean waits = contact != null
                    && reached - last.span().stopNanos() < LONGEST_WAIT
                    && contact.knownAt(reached)
                    && contact.at(reached);
            long pause = waits ? 0 : reached - mayStartFrom(last, reached);
            if (pause > CycleSettings.nanos(settings.sequence().retryMax()) || callEnded(last, Math.min(until, now))) {
                close();
            }
        }

        private long lastSeen() {
            return sequence == null || sequence.end() == sequence.first() ? now : sequence.time(sequence.end() - 1);
        }

        private void close() {
            CycleBuilder builder = new CycleBuilder(settings, fireKnown, call);
            Cycle cycle = builder.build(cycles.size() + 1, true);
            cycles.add(cycle);
            if (builder.lockedOut()) {
                lockedSince = cycle.endNanos();
            }
            call.clear();
        }

        CycleReport report() {
            return progress().report();
        }

        Progress progress() {
            List<Cycle> all = new ArrayList<>(cycles);
            List<RunFacts> open = new ArrayList<>(call);
            RunSpan current = sequence == null ? null : detector.current(sequence);
            boolean lasts = false;
            if (current != null && sequence != null) {
                RunFacts run = evaluator.evaluate(current, sequence);
                if (!open.isEmpty() && !belongs(run)) {
                    all.add(new CycleBuilder(settings, fireKnown, open).build(all.size() + 1, true));
                    open.clear();
                }
                open.add(run);
                lasts = current.lasting();
            }
            Outcome openOutcome = null;
            if (!open.isEmpty()) {
                Cycle last = new CycleBuilder(settings, fireKnown, open).build(all.size() + 1, false);
                all.add(last);
                openOutcome = last.outcome();
            }
            List<Gap> locked = new ArrayList<>(lockouts);
            boolean still = lockedSince != Long.MIN_VALUE && current == null;
            if (lockedSince != Long.MIN_VALUE && lastSeen() > lockedSince) {
                locked.add(new Gap(lockedSince, lastSeen()));
            }
            CycleReport report = new CycleReport(all, findings.findings(all, locked), locked);
            return new Progress(report, open, lasts, openOutcome, still ? (Long) lockedSince : null);
        }
    }
}
