package draftwitness.cycle;

import draftwitness.reading.Tap;
import draftwitness.reading.Unit;
import draftwitness.setup.Setup;
import draftwitness.signal.Robust;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.EnumMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;

/** Says in plain words what a session showed. One owner thread. */
final class FindingMaker {
    private static final long SECOND = 1_000_000_000;
    private static final long STANDBY = 30 * SECOND;
    private static final int MOST_MAKES = 1000;
    private static final int REPEATED = 2;

    private final CycleSettings settings;
    private final Sources sources;
    private final Wording words;
    private final List<Finding> found = new ArrayList<>();
    private final List<Double> makes = new ArrayList<>();
    private boolean reversed;
    private long closedSince = Long.MIN_VALUE;
    private long closedUntil;

    FindingMaker(CycleSettings settings, Sources sources) {
        this.settings = settings;
        this.sources = sources;
        Track shown = sources.atSwitch() != null ? sources.atSwitch() : sources.sequence();
        this.words = new Wording(shown == null ? Unit.PASCAL : shown.channel().unit());
        if (sources.sequence() == null) {
            found.add(
                    new Finding(
                            "no-draft-channel",
                            Severity.NOTE,
                            0,
                            0,
                            0,
                            "none of the channels is a draft at the inducer, the switch or the collector: cycles cannot be told"));
        } else if (settings.pressureSwitch() == null) {
            found.add(new Finding(
                    "no-set-point",
                    Severity.NOTE,
                    0,
                    0,
                    0,
                    "no set point is known: no margin and no modelled switch; state [switch] set-point in the setup"));
        } else if (twoPortsUnmeasured()) {
            found.add(
                    new Finding(
                            "reference-not-measured",
                            Severity.ATTENTION,
                            0,
                            0,
                            0,
                            "the switch sees draft against the burner box, which is not measured: margins are against the room"));
        }
    }

    private boolean twoPortsUnmeasured() {
        Setup.PressureSwitch rating = settings.pressureSwitch();
        return rating != null
                && rating.reference() == Setup.Reference.BURNER_BOX
                && sources.track(Tap.DRAFT_BURNER_BOX) == null;
    }

    /** Notes what a finished run says of the session as a whole. */
    void run(RunFacts run) {
        if (run.span().sign() > 0 && !reversed && run.span().levelPascals() > 0.3 * settings.scalePascals()) {
            reversed = true;
            found.add(new Finding(
                    "reversed-sign",
                    Severity.ATTENTION,
                    0,
                    run.span().startNanos(),
                    run.span().stopNanos(),
                    "draft reads positive (" + words.pressure(run.span().levelPascals())
                            + ") while the inducer runs: hose on the other port, or the sensor is reversed; it is taken as"
                            + " suction"));
        }
        if (!Double.isNaN(run.makePascals()) && makes.size() < MOST_MAKES) {
            makes.add(run.makePascals());
        }
    }

    /** Watches the contact while the inducer is off. */
    void standby(long until, long lastRunEnd) {
        StateTrack contact = sources.states(Tap.CONTACT_SWITCH);
        if (contact == null || !contact.knownAt(until) || !contact.at(until)) {
            finishStandby(until);
            return;
        }
        long[] changes = contact.changes(until - STANDBY, until + 1);
        boolean lasts = changes.length == 0 && contact.knownAt(until - STANDBY) && lastRunEnd < until - STANDBY;
        if (lasts && closedSince == Long.MIN_VALUE) {
            closedSince = until - STANDBY;
        }
        closedUntil = until;
    }

    private void finishStandby(long until) {
        if (closedSince != Long.MIN_VALUE) {
            found.add(closed(closedSince, Math.min(until, closedUntil)));
            closedSince = Long.MIN_VALUE;
        }
    }

    private static Finding closed(long from, long to) {
        return new Finding(
                "contact-closed-in-standby",
                Severity.DANGER,
                0,
                from,
                Math.max(from, to),
                "the switch's contact was closed with the inducer off for " + Wording.seconds(to - from)
                        + " or more: stuck, bypassed or wrongly wired; the furnace must not be run like that");
    }

    RunFacts withLateProving(RunFacts run, double took, double usual) {
        List<Episode> episodes = new ArrayList<>(run.episodes());
        episodes.add(
                0,
                new Episode(
                        EpisodeKind.LATE_PROVING,
                        run.span().startNanos(),
                        run.proofNanos(),
                        Phase.SPIN_UP,
                        sources.states(Tap.CONTACT_SWITCH) == null ? Tap.DRAFT_SWITCH : Tap.CONTACT_SWITCH,
                        Evidence.none(),
                        String.format(Locale.ROOT, "air flow was proved only after %.1f s", took)
                                + (Double.isNaN(usual)
                                        ? ""
                                        : String.format(Locale.ROOT, "; usual in this session %.1f s", usual))
                                + String.format(
                                        Locale.ROOT,
                                        " (late: over %.0f s and over %.0f times the usual)",
                                        settings.lateFloor(),
                                        settings.lateFactor())));
        return new RunFacts(
                run.span(),
                run.proofNanos(),
                run.closedBefore(),
                run.burns(),
                run.draftLost(),
                run.phases(),
                run.samples(),
                run.transitions(),
                run.makePascals(),
                run.callKnown(),
                run.callEnded(),
                episodes,
                run.levels());
    }

    /** All findings, by time. */
    List<Finding> findings(List<Cycle> cycles, List<Gap> lockouts) {
        List<Finding> all = new ArrayList<>(found);
        if (closedSince != Long.MIN_VALUE) {
            all.add(closed(closedSince, closedUntil));
        }
        for (Cycle c : cycles) {
            outcome(all, c);
            margin(all, c);
            episodes(all, c);
        }
        switchDrift(all);
        fading(all, cycles);
        for (Gap g : lockouts) {
            all.add(new Finding(
                    "lockout",
                    Severity.WARNING,
                    0,
                    g.startNanos(),
                    g.endNanos(),
                    "nothing moved for " + Wording.seconds(g.endNanos() - g.startNanos()) + " after all "
                            + settings.sequence().attempts() + " attempts had failed"));
        }
        all.sort(Comparator.comparingLong(Finding::startNanos).thenComparingInt(Finding::cycle));
        return all;
    }

    private void outcome(List<Finding> all, Cycle c) {
        if (c.outcome() == Outcome.HEATED || c.outcome() == Outcome.INCOMPLETE) {
            return;
        }
        Outcome reason = c.reason();
        all.add(new Finding(
                c.outcome() == Outcome.LOCKOUT ? "locked-out" : c.outcome().id(),
                Severity.WARNING,
                c.index(),
                c.startNanos(),
                c.endNanos(),
                "cycle " + c.index() + " ended without heat after " + c.attempts()
                        + (c.attempts() == 1 ? " attempt: " : " attempts: ")
                        + c.outcome().words()
                        + (reason == null ? "" : ", the last time because " + reason.words())));
    }

    private void margin(List<Finding> all, Cycle c) {
        Margin m = c.margin();
        Setup.PressureSwitch rating = settings.pressureSwitch();
        if (m == null || rating == null || m.band() == Band.HEALTHY) {
            return;
        }
        boolean thin = m.band() == Band.THIN;
        all.add(new Finding(
                thin ? "thin-margin" : "modest-margin",
                thin ? Severity.ATTENTION : Severity.NOTE,
                c.index(),
                c.startNanos(),
                c.endNanos(),
                "cycle " + c.index() + ": suction was only " + words.pressure(m.p01Pascals())
                        + " beyond the set point of "
                        + words.pressure(rating.setPointPascals()) + " (first percentile; weakest "
                        + words.pressure(m.minPascals()) + ", mean " + words.pressure(m.meanPascals()) + "); "
                        + m.band().id() + " is below "
                        + Wording.inches(thin ? settings.thinPascals() : settings.healthyPascals())));
    }

    /** One finding for each kind of episode in a cycle: the first, and how many more there were. */
    private static void episodes(List<Finding> all, Cycle c) {
        Map<EpisodeKind, List<Episode>> byKind = new EnumMap<>(EpisodeKind.class);
        c.episodes()
                .forEach(e ->
                        byKind.computeIfAbsent(e.kind(), k -> new ArrayList<>()).add(e));
        byKind.forEach((kind, list) -> all.add(new Finding(
                kind.id(),
                kind.severity(),
                c.index(),
                list.get(0).startNanos(),
                list.get(list.size() - 1).endNanos(),
                list.get(0).text()
                        + (list.size() == 1 ? "" : "; " + (list.size() - 1) + " more of the kind in this cycle"))));
    }

    private void switchDrift(List<Finding> all) {
        Setup.PressureSwitch rating = settings.pressureSwitch();
        if (rating == null || makes.size() < REPEATED || sources.atSwitch() == null) {
            return;
        }
        double[] values = makes.stream().mapToDouble(Double::doubleValue).toArray();
        double median = Robust.median(values);
        double spread = Robust.mad(values);
        double off = median - rating.setPointPascals();
        if (Math.abs(off) > 2 * rating.tolerancePascals() && spread < Math.abs(off) / 2) {
            all.add(new Finding(
                    "switch-drifted",
                    Severity.WARNING,
                    0,
                    0,
                    0,
                    "the contact made at " + words.pressure(median) + " (median of " + values.length
                            + " starts), set point " + words.pressure(rating.setPointPascals())
                            + ": off by more than twice the tolerance of "
                            + words.pressure(rating.tolerancePascals())));
        }
    }

    /** A plateau that fades from cycle to cycle. */
    private void fading(List<Finding> all, List<Cycle> cycles) {
        List<Cycle> full = cycles.stream()
                .filter(c -> !Double.isNaN(c.plateauPascals()) && c.outcome() == Outcome.HEATED)
                .toList();
        int third = full.size() / 3;
        if (third < 2) {
            return;
        }
        double early = median(full.subList(0, third));
        double late = median(full.subList(full.size() - third, full.size()));
        if (early - late > settings.driftShare() * early) {
            all.add(new Finding(
                    "drift-over-cycles",
                    Severity.WARNING,
                    0,
                    full.get(0).startNanos(),
                    full.get(full.size() - 1).endNanos(),
                    "suction faded from " + words.pressure(early) + " in the first cycles to " + words.pressure(late)
                            + " in the last of " + full.size() + ": more than "
                            + Wording.percent(settings.driftShare())));
        }
    }

    private static double median(List<Cycle> cycles) {
        return Robust.median(cycles.stream().mapToDouble(Cycle::plateauPascals).toArray());
    }
}
