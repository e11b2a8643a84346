package draftwitness.cycle;

import draftwitness.reading.Tap;
import draftwitness.setup.Setup;
import draftwitness.signal.Robust;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.EnumMap;
import java.util.EnumSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.jspecify.annotations.Nullable;

/**
 * Turns one inducer run and what the channels showed around it into facts. Pure in what it reads: looks and states
 * between 15 s before the start and the end of the run.
 */
final class RunEvaluator {
    private static final long SECOND = 1_000_000_000;
    private static final Set<Tap> DRAFTS =
            EnumSet.of(Tap.DRAFT_SWITCH, Tap.DRAFT_INDUCER, Tap.DRAFT_COLLECTOR, Tap.DRAFT_BURNER_BOX, Tap.DRAFT_VENT);

    /** Noise may move the weakest level by so much, or by a share of the level, before it is smoothed away. */
    private static final double QUIET_PASCALS = 1;

    private static final double QUIET_SHARE = 0.005;
    private static final double EXTREME_NOISE = 3.5;

    private final Sources sources;
    private final CycleSettings settings;
    private final BurnFinder burnFinder;

    RunEvaluator(Sources sources, CycleSettings settings) {
        this.sources = sources;
        this.settings = settings;
        this.burnFinder = new BurnFinder(sources, settings);
    }

    /** Whether a channel tells gas flow itself, so that purge, trial and run can be told apart at once. */
    boolean gasKnown() {
        return burnFinder.gasKnown();
    }

    RunFacts evaluate(RunSpan seen, Track sequence) {
        RunSpan span = withInducerContact(seen);
        Track track = sources.atSwitch() == null ? sequence : sources.atSwitch();
        boolean atSwitch = track == sources.atSwitch();
        Zero zero = Zero.of(track, span, track == sequence ? span.zeroPascals() : Double.NaN);
        int sign = track == sequence ? span.sign() : sign(track, span, zero.at(span.startNanos()));
        Suction suction = suction(track, span, zero, sign, atSwitch);
        StateTrack contact = sources.states(Tap.CONTACT_SWITCH);
        boolean closedBefore = contact != null
                && span.startSeen()
                && contact.knownAt(span.startNanos() - SECOND / 2)
                && contact.at(span.startNanos() - SECOND / 2);
        long proof = proof(span, suction, contact, closedBefore, atSwitch);
        List<Burn> burns = burnFinder.find(span, proof, suction);
        if (proof == Long.MAX_VALUE && (atSwitch ? contact == null : true)) {
            long plateau = plateau(span, suction);
            burns = burnFinder.find(span, plateau, suction);
            proof = burns.isEmpty() ? proof : Math.min(plateau, burns.get(0).onNanos());
        }
        return facts(span, track, suction, contact, closedBefore, atSwitch, proof, burns);
    }

    private RunFacts facts(
            RunSpan span,
            Track track,
            Suction suction,
            @Nullable StateTrack contact,
            boolean closedBefore,
            boolean atSwitch,
            long proof,
            List<Burn> found) {
        long steadyFrom = Math.min(proof, span.stopNanos());
        Wording words = new Wording(track.channel().unit());
        Tap tap = track.channel().tap();
        double level = suction.median(Math.min(steadyFrom + 2 * SECOND, span.stopNanos()), span.stopNanos());
        RunView first =
                new RunView(span, tap, suction, level, steadyFrom, span.stopNanos(), found, List.of(), settings, words);
        SwitchJudge early = new SwitchJudge(first, contact, atSwitch);
        List<Burn> burns = new ArrayList<>();
        List<Boolean> lost = new ArrayList<>();
        for (Burn b : found) {
            cutAtDraftLoss(b, span, suction, early, contact, atSwitch, burns, lost);
        }
        List<PhaseSpan> phases = new PhaseMaker(settings, burnFinder.gasKnown()).make(span, proof, burns);
        RunView view =
                new RunView(span, tap, suction, level, steadyFrom, span.stopNanos(), burns, phases, settings, words);
        SwitchJudge judge = new SwitchJudge(view, contact, atSwitch);
        List<Episode> episodes = new ArrayList<>(judge.episodes());
        episodes.addAll(new DraftJudge(view).judge(sources.states(Tap.CONTACT_BLOWER)));
        episodes.addAll(new GasJudge(view).judge(sources.track(Tap.GAS_INLET), sources.track(Tap.GAS_MANIFOLD)));
        gaps(view, episodes);
        unproved(view, proof, episodes);
        episodes.sort(Comparator.comparingLong(Episode::startNanos).thenComparing(Episode::kind));
        StateTrack call = sources.states(Tap.CONTACT_CALL);
        return new RunFacts(
                span,
                proof,
                closedBefore,
                burns,
                lost,
                phases,
                atSwitch ? samples(view, proof) : Map.of(),
                judge.transitions(),
                SwitchJudge.makePascals(closedBefore ? null : contact, suction, span.startNanos(), proof),
                call != null,
                call != null && call.next(false, span.startNanos() + SECOND, span.endNanos() + 1) != Long.MAX_VALUE,
                episodes,
                levels(span, burns));
    }

    private List<TapLevels> levels(RunSpan span, List<Burn> burns) {
        LevelJudge judge = new LevelJudge(span, burns, settings.afterLightOff());
        List<TapLevels> out = new ArrayList<>();
        for (Track t : sources.tracks()) {
            Tap tap = t.channel().tap();
            if (DRAFTS.contains(tap)) {
                double before = t == sources.sequence()
                        ? span.zeroPascals()
                        : Zero.of(t, span, Double.NaN).at(span.startNanos());
                int sign = t == sources.sequence() ? span.sign() : -1;
                Suction all = Suction.of(
                        t,
                        span.startNanos() - 15 * SECOND,
                        Math.min(span.watchedToNanos(), span.stopNanos() + 15 * SECOND / 2),
                        new Zero(before, 0, 0), // a line to the idle afterwards would hide what the blower does there
                        sign,
                        null,
                        Zero.NONE);
                out.add(judge.draft(tap, all, span.startSeen()));
            } else if (tap == Tap.GAS_MANIFOLD || tap == Tap.GAS_INLET || tap == Tap.FLAME_CURRENT) {
                out.add(judge.other(tap, t));
            }
        }
        return out;
    }

    private RunSpan withInducerContact(RunSpan s) {
        StateTrack inducer = sources.states(Tap.CONTACT_INDUCER);
        if (inducer == null) {
            return s;
        }
        long start = s.startNanos();
        for (long t : inducer.changes(s.startNanos() - 5 * SECOND, s.startNanos() + 3 * SECOND)) {
            start = inducer.at(t) ? t : start;
        }
        long stop = s.stopNanos();
        for (long t : inducer.changes(s.stopNanos() - 5 * SECOND, s.stopNanos() + 2 * SECOND)) {
            stop = inducer.at(t) ? stop : t;
        }
        return new RunSpan(
                s.idleFromNanos(),
                start,
                s.startSeen(),
                Math.max(start, stop),
                Math.max(start, s.endNanos()),
                s.lasting(),
                s.zeroPascals(),
                s.sigmaPascals(),
                s.sign(),
                s.watchedToNanos(),
                s.levelPascals());
    }

    private int sign(Track track, RunSpan span, double zero) {
        double level = Robust.median(track.means(span.startNanos() + 2 * SECOND, span.stopNanos() + 1)) - zero;
        return level > 0.3 * settings.scalePascals() ? 1 : -1;
    }

    private Suction suction(Track track, RunSpan span, Zero zero, int sign, boolean atSwitch) {
        Setup.PressureSwitch rating = settings.pressureSwitch();
        boolean against = atSwitch && rating != null && rating.reference() == Setup.Reference.BURNER_BOX;
        Track box = against ? sources.track(Tap.DRAFT_BURNER_BOX) : null;
        return Suction.of(
                track,
                span.startNanos() - 15 * SECOND,
                span.endNanos() + 1,
                zero,
                sign,
                box,
                box == null ? Zero.NONE : Zero.of(box, span, Double.NaN));
    }

    private long proof(
            RunSpan span, Suction suction, @Nullable StateTrack contact, boolean closedBefore, boolean atSwitch) {
        if (contact != null && !closedBefore) {
            return lastingMake(contact, span);
        }
        Setup.PressureSwitch rating = settings.pressureSwitch();
        if (!span.startSeen()) {
            return span.startNanos();
        }
        if (rating == null || !atSwitch) {
            return plateau(span, suction);
        }
        for (int i = suction.at(span.startNanos()); i < suction.size() && suction.times[i] < span.stopNanos(); i++) {
            if (suction.means[i] >= rating.setPointPascals()) {
                return suction.times[i];
            }
        }
        return Long.MAX_VALUE;
    }

    /** When the contact first made for long enough that a control believes it; else when it first made; else never. */
    private long lastingMake(StateTrack contact, RunSpan span) {
        long first = contact.next(true, span.startNanos(), span.stopNanos());
        long made = first;
        while (made < span.stopNanos()) {
            long opened = contact.next(false, made, span.stopNanos());
            if (opened == Long.MAX_VALUE || opened - made >= CycleSettings.nanos(settings.switchFilter())) {
                return made;
            }
            made = contact.next(true, opened, span.stopNanos());
        }
        return first;
    }

    /** When suction first came within a twentieth of the level of its first half minute. */
    private static long plateau(RunSpan span, Suction suction) {
        double level = suction.median(
                span.startNanos() + 2 * SECOND, Math.min(span.startNanos() + 30 * SECOND, span.stopNanos()));
        for (int i = suction.at(span.startNanos()); i < suction.size() && suction.times[i] < span.stopNanos(); i++) {
            if (suction.means[i] >= 0.95 * level) {
                return suction.times[i];
            }
        }
        return Long.MAX_VALUE;
    }

    /** Judges how a burn ended; without a gas channel, an opening of the contact ends it. */
    private void cutAtDraftLoss(
            Burn b,
            RunSpan span,
            Suction suction,
            SwitchJudge judge,
            @Nullable StateTrack contact,
            boolean atSwitch,
            List<Burn> burns,
            List<Boolean> lost) {
        long from = b.offNanos() - 3 * SECOND / 2;
        Setup.PressureSwitch rating = settings.pressureSwitch();
        if (burnFinder.fireKnown()) {
            boolean modelled = contact == null
                    && rating != null
                    && atSwitch
                    && suction.smallest(from, b.offNanos() + 1) < rating.breakPascals() - rating.tolerancePascals();
            burns.add(b);
            lost.add(b.offNanos() <= span.stopNanos() && (judge.openedAround(from, b.offNanos() + 1) || modelled));
            return;
        }
        long opened = contact != null
                ? firstLoss(contact, b, span)
                : rating != null && atSwitch ? modelledLoss(rating, suction, b, span) : Long.MAX_VALUE;
        boolean cut = opened < Math.min(b.offNanos(), span.stopNanos());
        burns.add(
                cut
                        ? new Burn(
                                b.onNanos(),
                                opened,
                                b.lit(),
                                b.flameNanos(),
                                b.lightOffNanos(),
                                false,
                                b.flameWentFirst())
                        : b);
        lost.add(cut);
    }

    private long firstLoss(StateTrack contact, Burn b, RunSpan span) {
        long to = Math.min(b.offNanos(), span.stopNanos());
        long[] changes = contact.changes(b.onNanos(), to);
        int first = contact.index(b.onNanos());
        for (int i = 0; i < changes.length; i++) {
            if (!contact.at(changes[i])
                    && contact.sureNanos(first + i) >= CycleSettings.nanos(0.8 * settings.switchFilter())) {
                return changes[i];
            }
        }
        return Long.MAX_VALUE;
    }

    /**
     * When suction first stayed below what any switch of this rating holds, for as long as stops a burner; without a
     * contact.
     */
    private long modelledLoss(Setup.PressureSwitch rating, Suction suction, Burn b, RunSpan span) {
        double surely = rating.breakPascals() - rating.tolerancePascals();
        long to = Math.min(b.offNanos(), span.stopNanos());
        long since = Long.MAX_VALUE;
        for (int i = suction.at(b.onNanos()); i < suction.size() && suction.times[i] < to; i++) {
            since = suction.means[i] < surely ? Math.min(since, suction.times[i]) : Long.MAX_VALUE;
            if (since != Long.MAX_VALUE && suction.times[i] - since >= CycleSettings.nanos(settings.switchFilter())) {
                return since;
            }
        }
        return Long.MAX_VALUE;
    }

    /** Looks that count for the margin, phase by phase. */
    private Map<Phase, MarginSamples> samples(RunView view, long proof) {
        Map<Phase, MarginSamples> out = new EnumMap<>(Phase.class);
        if (proof == Long.MAX_VALUE) {
            return out;
        }
        long end = view.steadyTo();
        if (!view.burns().isEmpty() && view.burns().get(view.burns().size() - 1).lit()) {
            end = Math.min(end, view.burns().get(view.burns().size() - 1).offNanos());
        }
        // Just after proving the suction is still rising, and just before the stop it may have begun to fall.
        long from = settled(view, proof);
        for (PhaseSpan p : view.phases()) {
            if (p.phase() != Phase.SPIN_UP) {
                MarginSamples here = samples(view, Math.max(from, p.startNanos()), Math.min(end, p.endNanos()));
                if (here != null) {
                    out.merge(p.phase(), here, MarginSamples::and);
                }
            }
        }
        return out;
    }

    /** When suction first reached its level after it was proved, within a few seconds. */
    private static long settled(RunView view, long proof) {
        Suction s = view.suction();
        double level = s.median(proof + 3 * SECOND, proof + 8 * SECOND);
        for (int i = s.at(proof); i < s.size() && s.times[i] < proof + 5 * SECOND; i++) {
            if (s.means[i] >= 0.97 * level) {
                return s.times[i];
            }
        }
        return Double.isNaN(level) ? proof : proof + 3 * SECOND;
    }

    private @Nullable MarginSamples samples(RunView view, long from, long to) {
        Suction s = view.suction();
        int a = s.at(from);
        int b = Math.max(a, s.at(to));
        if (a == b) {
            return null;
        }
        double[] lows = s.lows.clone();
        lows[a] = s.means[a]; // the lasting level before it belongs to another phase
        double noise = Quiet.noise(s.means, a, b);
        double allowed = Math.max(QUIET_PASCALS, QUIET_SHARE * view.level());
        double[] levels = Quiet.levels(s.means, lows, a, b, noise, allowed);
        boolean noisy = EXTREME_NOISE * noise > allowed;
        double[] kept = new double[b - a];
        int n = 0;
        double least = Double.POSITIVE_INFINITY;
        for (int i = a; i < b; i++) {
            if (!view.lightOff(s.times[i])) {
                kept[n++] = noisy ? levels[i - a] : s.means[i];
                least = Math.min(least, levels[i - a]);
            }
        }
        return n == 0 ? null : new MarginSamples(Arrays.copyOf(kept, n), least);
    }

    private void gaps(RunView view, List<Episode> episodes) {
        for (Track t : sources.tracks()) {
            double[] steps = steps(t, view.span());
            double usual = Robust.median(steps);
            long floor = (long) Math.max(SECOND, 5 * (Double.isNaN(usual) ? 0 : usual));
            for (long i = t.at(view.span().startNanos()) + 1;
                    i < t.end() && t.time(i - 1) < view.span().endNanos();
                    i++) {
                if (t.time(i) - t.time(i - 1) > floor + Track.LOOK_NANOS
                        && t.time(i) <= view.span().endNanos()) {
                    episodes.add(view.episode(
                            EpisodeKind.READING_GAP,
                            t.time(i - 1),
                            t.time(i),
                            t.channel().tap(),
                            Evidence.none(),
                            "no readings at " + t.channel().tap().role() + " for "
                                    + Wording.seconds(t.time(i) - t.time(i - 1)) + ", " + view.where(t.time(i - 1))
                                    + ": nothing is known of that time"));
                }
            }
        }
    }

    private static double[] steps(Track t, RunSpan span) {
        long a = t.at(span.startNanos());
        long b = t.at(span.endNanos());
        double[] steps = new double[(int) Math.max(0, b - a - 1)];
        for (int i = 0; i < steps.length; i++) {
            steps[i] = t.time(a + i + 1) - t.time(a + i);
        }
        return steps;
    }

    private void unproved(RunView view, long proof, List<Episode> episodes) {
        long lasted = view.span().stopNanos() - view.span().startNanos();
        if (proof != Long.MAX_VALUE
                || (view.span().lasting()
                        && lasted < CycleSettings.nanos(settings.sequence().provingLimit()))) {
            return;
        }
        double most =
                view.suction().largest(view.span().startNanos(), view.span().stopNanos() + 1);
        Setup.PressureSwitch rating = settings.pressureSwitch();
        episodes.add(view.episode(
                EpisodeKind.NO_PROVING,
                view.span().startNanos(),
                view.span().stopNanos(),
                view.tap(),
                Evidence.depth(Double.NaN, most),
                "the switch did not make within " + Wording.seconds(lasted) + "; suction reached "
                        + view.words().pressure(most)
                        + (rating == null ? "" : ", set point " + view.words().pressure(rating.setPointPascals()))));
    }
}
