package draftwitness.cycle;

import draftwitness.reading.Tap;
import draftwitness.signal.LevelWindow;
import draftwitness.signal.Periodicity;
import draftwitness.signal.Robust;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.jspecify.annotations.Nullable;

/** Judges the gas side of one run: inlet sags, manifold off its target, hunting. Pure. */
final class GasJudge {
    private static final long SECOND = 1_000_000_000;
    private static final long SETTLED = 5 * SECOND;
    private static final long WINDOW = 20 * SECOND;
    private static final double INLET_WINDOW_SECONDS = 30;

    private final RunView view;
    private final CycleSettings settings;
    private final List<Episode> episodes = new ArrayList<>();

    GasJudge(RunView view) {
        this.view = view;
        this.settings = view.settings();
    }

    List<Episode> judge(@Nullable Track inlet, @Nullable Track manifold) {
        if (inlet != null) {
            sags(inlet, new Wording(inlet.channel().unit()));
        }
        if (manifold != null) {
            for (Burn burn : view.burns()) {
                if (burn.offNanos() - burn.onNanos() > 2 * SETTLED) {
                    Wording words = new Wording(manifold.channel().unit());
                    target(manifold, burn, words);
                    hunting(manifold, burn, words);
                }
            }
        }
        return episodes;
    }

    private void sags(Track inlet, Wording words) {
        long from = view.span().startNanos();
        double[] all = inlet.means(from, view.span().endNanos());
        double rate = all.length / Math.max(1.0, (view.span().endNanos() - from) / 1e9);
        LevelWindow level = new LevelWindow((int) Math.max(5, Math.round(INLET_WINDOW_SECONDS * rate)));
        long since = Long.MAX_VALUE;
        double least = 0;
        for (long i = inlet.at(from);
                i < inlet.end() && inlet.time(i) < view.span().endNanos();
                i++) {
            double v = inlet.mean(i);
            if (level.size() >= 5 && v < (1 - settings.gasSagShare()) * level.median()) {
                least = since == Long.MAX_VALUE ? v : Math.min(least, v);
                since = Math.min(since, inlet.time(i));
            } else {
                inletSag(since, inlet.time(i), least, level.median(), words);
                since = Long.MAX_VALUE;
                level.add(v);
            }
        }
        inletSag(since, view.span().endNanos(), least, level.median(), words);
    }

    private void inletSag(long since, long until, double least, double level, Wording words) {
        if (since == Long.MAX_VALUE || until - since < CycleSettings.nanos(settings.gasSagHold())) {
            return;
        }
        Double lowest = settings.gas().inletMinPascals();
        episodes.add(view.episode(
                EpisodeKind.GAS_SAG,
                since,
                until,
                Tap.GAS_INLET,
                Evidence.depth(level - least, level),
                "gas inlet fell from " + words.pressure(level) + " to " + words.pressure(least) + " for "
                        + Wording.seconds(until - since) + ", " + view.where(since)
                        + (lowest == null ? "" : "; plate minimum " + words.pressure(lowest))));
    }

    private void target(Track manifold, Burn burn, Wording words) {
        double[] values = manifold.means(burn.onNanos() + SETTLED, burn.offNanos() - SECOND);
        if (values.length < 5) {
            return;
        }
        Double low = settings.gas().lowFireManifoldPascals();
        double high = settings.manifoldPascals();
        // A two-stage valve is judged stage by stage: each reading belongs to the target that it is nearer to.
        double between = low == null ? 0 : Math.sqrt(low * high);
        judgeStage(burn, Arrays.stream(values).filter(v -> v >= between).toArray(), high, words);
        if (low != null) {
            judgeStage(burn, Arrays.stream(values).filter(v -> v < between).toArray(), low, words);
        }
    }

    private void judgeStage(Burn burn, double[] values, double target, Wording words) {
        if (values.length < 20) {
            return;
        }
        double mean = Arrays.stream(values).average().orElseThrow();
        double off = mean / target - 1;
        if (Math.abs(off) > settings.gasOffShare()) {
            boolean plate = settings.gas().manifoldPascals() != null;
            episodes.add(view.episode(
                    EpisodeKind.GAS_OFF_TARGET,
                    burn.onNanos(),
                    burn.offNanos(),
                    Tap.GAS_MANIFOLD,
                    Evidence.depth(Math.abs(mean - target), target),
                    "manifold at " + words.pressure(mean) + " on average, " + Wording.percent(Math.abs(off))
                            + (off < 0 ? " below " : " above ") + words.pressure(target)
                            + (plate ? " from the plate" : ", usual for the gas (common practice; the plate governs)")
                            + String.format(
                                    java.util.Locale.ROOT,
                                    "; input goes with the root: %+.0f %%",
                                    (Math.sqrt(Math.max(0, mean / target)) - 1) * 100)));
        }
    }

    private void hunting(Track manifold, Burn burn, Wording words) {
        long since = Long.MAX_VALUE;
        long until = 0;
        double worst = 0;
        double hertz = 0;
        double share = 0;
        double level = 0;
        for (long t = burn.onNanos() + SETTLED; t + WINDOW <= burn.offNanos() - SECOND; t += WINDOW / 2) {
            double[] values = manifold.means(t, t + WINDOW);
            Periodicity rhythm = Periodicity.of(values, values.length / (WINDOW / 1e9));
            double swing = Robust.quantile(values, 0.95) - Robust.quantile(values, 0.05);
            double median = Robust.median(values);
            boolean hunts = rhythm.share() > 0.5 && rhythm.repeats() > 0.3 && swing > settings.huntingShare() * median;
            if (hunts) {
                since = Math.min(since, t);
                until = t + WINDOW;
                if (swing > worst) {
                    worst = swing;
                    hertz = rhythm.hertz();
                    share = rhythm.share();
                    level = median;
                }
            }
        }
        if (since != Long.MAX_VALUE) {
            episodes.add(view.episode(
                    EpisodeKind.GAS_HUNTING,
                    since,
                    until,
                    Tap.GAS_MANIFOLD,
                    new Evidence(worst, level, hertz, share, 0, "periodic", null),
                    "manifold swung by " + words.pressure(worst) + " around " + words.pressure(level) + " at "
                            + Wording.hertz(hertz) + " (" + Wording.percent(share) + " of the movement), from "
                            + view.where(since)));
        }
    }
}
