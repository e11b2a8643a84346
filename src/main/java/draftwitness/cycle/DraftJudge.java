package draftwitness.cycle;

import draftwitness.reading.Tap;
import draftwitness.signal.LevelWindow;
import draftwitness.signal.Robust;
import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;

/** Judges the suction of one run against its own level: sags, light-off dips, drift, steps at the blower. Pure. */
final class DraftJudge {
    private static final long SECOND = 1_000_000_000;
    private static final double LONGEST_SAG_SECONDS = 60;
    private static final double DIP_SHARE = 0.20;
    private static final double WARM_UP_SECONDS = 90;

    private final RunView view;
    private final CycleSettings settings;
    private final List<Episode> episodes = new ArrayList<>();

    DraftJudge(RunView view) {
        this.view = view;
        this.settings = view.settings();
    }

    List<Episode> judge(@Nullable StateTrack blower) {
        for (PhaseSpan phase : view.phases()) {
            if (phase.phase() != Phase.SPIN_UP) {
                long from = Math.max(phase.startNanos(), view.steadyFrom());
                long to = Math.min(phase.endNanos(), view.steadyTo());
                sags(from, to);
                drift(phase, from, to);
            }
        }
        dips();
        if (blower != null) {
            steps(blower);
        }
        return episodes;
    }

    private void sags(long from, long to) {
        Suction s = view.suction();
        double rate = s.rate(from, to);
        if (Double.isNaN(rate)) {
            return;
        }
        int width = (int) Math.max(5, Math.round(settings.sagWindow() * rate));
        LevelWindow level = new LevelWindow(width);
        List<double[]> found = new ArrayList<>();
        long since = Long.MAX_VALUE;
        double least = 0;
        boolean skipping = false;
        for (int i = s.at(from); i < s.size() && s.times[i] < to; i++) {
            long t = s.times[i];
            if (view.lightOff(t)) {
                skipping = true;
                since = Long.MAX_VALUE;
                continue;
            }
            if (skipping) {
                level.clear();
                skipping = false;
            }
            if (level.size() >= Math.max(5, width / 5) && weak(level, s.means[i])) {
                since = Math.min(since, t);
                least = since == t ? s.means[i] : Math.min(least, s.means[i]);
                if (t - since > LONGEST_SAG_SECONDS * SECOND) {
                    if (settings.inducerStages() == 1) {
                        note(found, since, t, least, level.median());
                    }
                    level.clear(); // a new level, not a sag any more
                    since = Long.MAX_VALUE;
                }
            } else {
                note(found, since, t, least, level.median());
                since = Long.MAX_VALUE;
                level.add(s.means[i]);
            }
        }
        if (to < view.steadyTo()) {
            note(found, since, to, least, level.median());
        } // else it never came back: the coasting down, or not known yet
        found.forEach(this::sag);
    }

    private boolean weak(LevelWindow level, double value) {
        double median = level.median();
        double by = median - value;
        return by > settings.sagShare() * median && by > settings.sagSigmas() * level.sigma();
    }

    private void note(List<double[]> found, long since, long until, double least, double level) {
        if (since == Long.MAX_VALUE || until - since < CycleSettings.nanos(settings.sagHold())) {
            return;
        }
        int last = found.size() - 1;
        if (last >= 0 && since - found.get(last)[1] < CycleSettings.nanos(settings.sagMerge())) {
            double[] earlier = found.get(last);
            earlier[1] = until;
            earlier[2] = Math.min(earlier[2], least);
        } else {
            found.add(new double[] {since, until, least, level});
        }
    }

    private void sag(double[] found) {
        long from = (long) found[0];
        long to = (long) found[1];
        double least = found[2];
        double level = found[3];
        var rating = settings.pressureSwitch();
        String below = "";
        if (rating != null && view.tap() == Tap.DRAFT_SWITCH) {
            below = "; set point " + view.words().pressure(rating.setPointPascals()) + ", break point "
                    + view.words().pressure(rating.breakPascals())
                    + (least < rating.breakPascals() ? " (fell below it)" : "");
        }
        episodes.add(view.episode(
                EpisodeKind.SAG,
                from,
                to,
                view.tap(),
                Evidence.depth(level - least, level),
                "suction fell from " + view.words().pressure(level) + " to "
                        + view.words().pressure(least) + " for " + Wording.seconds(to - from) + ", " + view.where(from)
                        + below));
    }

    private void drift(PhaseSpan phase, long from, long to) {
        long begin = phase.phase() == Phase.RUN ? from + CycleSettings.nanos(WARM_UP_SECONDS) : from;
        long block = 10 * SECOND;
        double most = 0;
        long mostAt = 0;
        double worst = 0;
        long worstFrom = 0;
        long worstTo = 0;
        double worstLevel = 0;
        for (long t = begin; t + block <= to; t += block) {
            double median = view.suction().median(t, t + block);
            if (median > most) {
                most = median;
                mostAt = t;
            } else if (most - median > worst && t - mostAt >= CycleSettings.nanos(settings.driftTime())) {
                worst = most - median;
                worstFrom = mostAt;
                worstTo = t + block;
                worstLevel = most;
            }
        }
        if (worst > settings.driftShare() * view.level()) {
            episodes.add(view.episode(
                    EpisodeKind.DRIFT,
                    worstFrom,
                    worstTo,
                    view.tap(),
                    Evidence.depth(worst, worstLevel),
                    "suction faded from " + view.words().pressure(worstLevel) + " to "
                            + view.words().pressure(worstLevel - worst) + " within "
                            + Wording.seconds(worstTo - worstFrom) + ", from " + view.where(worstFrom)
                            + ": more than " + Wording.percent(settings.driftShare()) + " of its level"));
        }
    }

    private void dips() {
        for (Burn b : view.burns()) {
            if (!b.lit()) {
                continue;
            }
            long at = b.lightOffNanos();
            long after = at + CycleSettings.nanos(settings.afterLightOff());
            // A dip comes back; a lower level that stays is a stage or a fault of its own.
            double level = Math.min(
                    view.suction().median(at - 5 * SECOND, at), view.suction().median(after, after + 5 * SECOND));
            double least = view.suction().smallest(at, at + CycleSettings.nanos(settings.afterLightOff()));
            var rating = settings.pressureSwitch();
            double breakPoint = rating == null || view.tap() != Tap.DRAFT_SWITCH ? 0 : rating.breakPascals();
            boolean breaks = least < breakPoint && level > breakPoint;
            if (level - least > DIP_SHARE * level || breaks) {
                episodes.add(view.episode(
                        EpisodeKind.LIGHT_OFF_DIP,
                        at,
                        at + CycleSettings.nanos(settings.afterLightOff()),
                        view.tap(),
                        Evidence.depth(level - least, level),
                        "suction dipped from " + view.words().pressure(level) + " to "
                                + view.words().pressure(least)
                                + " at light-off; up to " + Wording.percent(DIP_SHARE) + " is usual"
                                + (breaks ? ", and this is below the break point" : "")));
            }
        }
    }

    private void steps(StateTrack blower) {
        for (long t : blower.changes(view.steadyFrom(), view.steadyTo())) {
            double[] before = view.suction().between(t - 4 * SECOND, t - SECOND / 5);
            long within = CycleSettings.nanos(settings.blowerWithin());
            double[] after = view.suction().between(t + within, t + within + 3 * SECOND);
            if (before.length < 3 || after.length < 3 || view.lightOff(t) || t + within > view.steadyTo()) {
                continue;
            }
            double step = Robust.median(after) - Robust.median(before);
            double noise = Robust.SIGMA_OF_MAD * Math.max(Robust.mad(before), Robust.mad(after));
            if (Math.abs(step) > Math.max(settings.blowerShare() * view.level(), 2 * noise)) {
                episodes.add(view.episode(
                        EpisodeKind.BLOWER_STEP,
                        t,
                        t + within,
                        view.tap(),
                        Evidence.depth(Math.abs(step), Robust.median(before)),
                        "suction stepped from " + view.words().pressure(Robust.median(before)) + " to "
                                + view.words().pressure(Robust.median(after)) + " when the blower "
                                + (blower.at(t) ? "started" : "stopped") + ", " + view.where(t)
                                + ": air side and flue side may be connected"));
            }
        }
    }
}
