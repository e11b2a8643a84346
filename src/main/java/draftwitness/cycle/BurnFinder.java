package draftwitness.cycle;

import draftwitness.reading.Tap;
import draftwitness.signal.Hysteresis;
import draftwitness.signal.Robust;
import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * Finds when gas flowed and whether it burned, from the best channel there is: the gas valve's contact, the manifold
 * pressure, the flame current, and else the draft itself. Pure.
 *
 * <p>In the draft, hot products show as a lasting weaker level after a short dip. Without a flame channel a gas time
 * longer than the trial must have had a flame, since the control would have shut it.
 */
final class BurnFinder {
    private static final long SECOND = 1_000_000_000;
    private static final double ON_SHARE = 0.25;
    private static final double OFF_SHARE = 0.15;

    private final Sources sources;
    private final CycleSettings settings;

    BurnFinder(Sources sources, CycleSettings settings) {
        this.sources = sources;
        this.settings = settings;
    }

    /** Whether a channel tells gas flow itself. */
    boolean gasKnown() {
        return sources.states(Tap.CONTACT_GAS_VALVE) != null || sources.track(Tap.GAS_MANIFOLD) != null;
    }

    /** Whether anything but draft tells of fire. */
    boolean fireKnown() {
        return gasKnown() || sources.track(Tap.FLAME_CURRENT) != null;
    }

    /** All burns of a run, oldest first. */
    List<Burn> find(RunSpan run, long proof, Suction suction) {
        List<long[]> spans = gasSpans(run);
        if (spans == null) {
            return fromDraft(run, proof, suction);
        }
        List<Burn> burns = new ArrayList<>();
        for (long[] span : spans) {
            burns.add(burn(run, span[0], span[1]));
        }
        return burns;
    }

    private @Nullable List<long[]> gasSpans(RunSpan run) {
        StateTrack valve = sources.states(Tap.CONTACT_GAS_VALVE);
        Track manifold = sources.track(Tap.GAS_MANIFOLD);
        Track flame = sources.track(Tap.FLAME_CURRENT);
        if (valve != null) {
            return spans(valve, run);
        }
        if (manifold != null) {
            double target = settings.manifoldPascals();
            return spans(manifold, run, ON_SHARE * target, OFF_SHARE * target);
        }
        return flame == null
                ? null
                : spans(flame, run, settings.flameMicroamperes(), 0.6 * settings.flameMicroamperes());
    }

    private static List<long[]> spans(StateTrack state, RunSpan run) {
        List<long[]> out = new ArrayList<>();
        long on = state.next(true, run.startNanos(), run.endNanos());
        while (on < run.endNanos()) {
            long off = Math.min(state.next(false, on, run.endNanos()), run.endNanos());
            out.add(new long[] {on, off});
            on = off == run.endNanos() ? Long.MAX_VALUE : state.next(true, off, run.endNanos());
        }
        return out;
    }

    static List<long[]> spans(Track track, RunSpan run, double onAt, double offAt) {
        List<long[]> out = new ArrayList<>();
        Hysteresis on = new Hysteresis(onAt, offAt, false);
        long since = 0;
        for (long i = track.at(run.startNanos()); i < track.end() && track.time(i) < run.endNanos(); i++) {
            if (on.add(track.mean(i))) {
                if (on.on()) {
                    since = track.time(i);
                } else {
                    out.add(new long[] {since, track.time(i)});
                }
            }
        }
        if (on.on()) {
            out.add(new long[] {since, run.endNanos()});
        }
        return out;
    }

    private Burn burn(RunSpan run, long on, long off) {
        boolean lasting = run.lasting() && off >= run.endNanos();
        Track flame = sources.track(Tap.FLAME_CURRENT);
        if (flame == null) {
            boolean lit = off - on > CycleSettings.nanos(settings.sequence().trialForIgnition() + 0.5);
            return new Burn(on, off, lit, on, on, lasting, false);
        }
        List<long[]> flames = spans(
                flame,
                new RunSpan(on, on, true, off, off + SECOND, run.lasting(), 0, 0, -1, off, 0),
                settings.flameMicroamperes(),
                0.6 * settings.flameMicroamperes());
        if (flames.isEmpty()) {
            return new Burn(on, off, false, on, on, lasting, false);
        }
        long from = flames.get(0)[0];
        long to = flames.get(flames.size() - 1)[1];
        boolean lit = to - from > SECOND / 2;
        return new Burn(on, off, lit, from, from, lasting, off - to > SECOND * 3 / 10);
    }

    private List<Burn> fromDraft(RunSpan run, long proof, Suction suction) {
        if (proof == Long.MAX_VALUE) {
            return List.of();
        }
        long settled = proof + 3 * SECOND;
        double cold = suction.median(settled, settled + 10 * SECOND);
        double noise = Robust.SIGMA_OF_MAD * Robust.mad(suction.between(settled, settled + 10 * SECOND));
        if (Double.isNaN(cold)) {
            return List.of();
        }
        double drop = Math.max(0.01 * cold, noise / 2);
        long on = Long.MAX_VALUE;
        long earliest = proof + CycleSettings.nanos(0.5 * settings.sequence().prePurge());
        for (int i = suction.at(Math.max(earliest, settled + 10 * SECOND)); i < suction.size(); i++) {
            long t = suction.times[i];
            if (t + 12 * SECOND > run.stopNanos()) {
                break;
            }
            if (isLightOff(suction, t, drop, settings.inducerStages() == 2 ? 0.65 : 0.3)) {
                on = deepest(suction, t);
                break;
            }
        }
        if (on == Long.MAX_VALUE) {
            on = warmUp(run, suction, settled, cold, noise);
        }
        if (on == Long.MAX_VALUE) {
            return List.of();
        }
        long off = run.lasting() ? run.stopNanos() : flameOut(run, suction, on);
        return List.of(new Burn(on, off, true, on, on, run.lasting(), false));
    }

    /** A dip now, and weaker for the next ten seconds than for the last ten. */
    private static boolean isLightOff(Suction s, long t, double drop, double most) {
        int i = s.at(t);
        double before = i == 0 ? Double.NaN : s.means[i - 1];
        if (!(before - s.means[i] > drop)) {
            return false; // a cheap look first
        }
        double ahead = s.median(t - 10 * SECOND, t);
        double after = s.median(t + 2 * SECOND, t + 10 * SECOND);
        double dip = s.smallest(t, t + 3 * SECOND / 2);
        return ahead - after > drop && ahead - after < most * ahead && ahead - dip > Math.max(3 * drop, 0.03 * ahead);
    }

    /**
     * The begin of the deepest short dip in the twelve seconds from a time on: gusts and bubbles before light-off see
     * the weaker level after it as well.
     */
    private static long deepest(Suction s, long from) {
        int best = s.at(from);
        double most = 0;
        for (int i = best; i < s.size() && s.times[i] < from + 12 * SECOND; i++) {
            double before = i == 0 ? s.means[i] : s.means[i - 1];
            double dip = before - s.smallest(s.times[i], s.times[i] + SECOND / 2);
            if (before - s.means[i] > 0 && dip > 1.5 * most) {
                most = dip;
                best = i;
            }
        }
        return s.times[best];
    }

    /** Without a dip: when the level began to leave the cold plateau for good. */
    private long warmUp(RunSpan run, Suction s, long settled, double cold, double noise) {
        double weaker = Math.max(0.035 * cold, 2 * noise);
        long needed = settled + CycleSettings.nanos(settings.sequence().prePurge());
        for (long t = needed; t + 20 * SECOND < run.stopNanos(); t += SECOND) {
            if (cold - s.median(t, t + 20 * SECOND) > weaker) {
                long back = t;
                while (back > settled && cold - s.median(back - SECOND, back) > 0.3 * weaker) {
                    back -= SECOND;
                }
                return back;
            }
        }
        return Long.MAX_VALUE;
    }

    /** The clearest step towards the cold plateau in the last minute before the inducer stops; else the stop. */
    private long flameOut(RunSpan run, Suction s, long on) {
        long limit = CycleSettings.nanos(Math.max(30, 2 * settings.sequence().postPurge()));
        long best = run.stopNanos();
        double most = 0;
        for (long t = Math.max(on + 20 * SECOND, run.stopNanos() - limit);
                t < run.stopNanos() - 3 * SECOND;
                t += SECOND / 4) {
            double[] before = s.between(t - 8 * SECOND, t);
            double step = s.median(t, t + 2 * SECOND) - Robust.median(before);
            double noise = Robust.SIGMA_OF_MAD * Robust.mad(before);
            if (step > Math.max(0.012 * run.levelPascals(), 2 * noise) && step > most) {
                most = step;
                best = t;
            }
        }
        return best;
    }
}
