package draftwitness.diagnosis;

import draftwitness.cycle.Cycle;
import draftwitness.cycle.CycleReport;
import draftwitness.cycle.TapLevels;
import draftwitness.reading.Tap;
import draftwitness.setup.Setup;
import draftwitness.signal.Robust;
import java.util.ArrayList;
import java.util.EnumMap;
import java.util.IdentityHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.function.ToDoubleFunction;
import org.jspecify.annotations.Nullable;

/** Evidence from the levels and the movement of the draft taps. Limits are the program's own, from memory. Pure. */
final class DraftEvidence {
    private static final double INCH = 249.08891;
    private static final double HOUR = 3600e9;

    /** Seconds to nine tenths of the level: slow, and creeping, from here on. */
    private static final double SLOW = 4.5;

    private static final double CREEPING = 12;

    /** Change of the level within a run once warm, and over hours, that counts. */
    private static final double FADES = 0.93;

    private static final double GROWS = 1.05;

    /** Swing over level that counts as movement, and that of its quick part that counts as bursts. */
    private static final double MOVES = 0.02;

    private static final double BURSTS = 0.012;

    /**
     * Share of the inducer's suction at the collector, at the burner box, and pressure in the vent, that is unusual.
     */
    private static final double WEAK_COLLECTOR = 0.45;

    private static final double DEEP_BOX = 0.09;
    private static final double HIGH_VENT = 0.15;

    private final Setup setup;
    private final CycleReport report;
    private final Map<Tap, List<TapLevels>> byTap = new EnumMap<>(Tap.class);
    private final IdentityHashMap<TapLevels, Integer> cycleOf = new IdentityHashMap<>();
    private final List<Evidence> found = new ArrayList<>();

    DraftEvidence(Setup setup, CycleReport report) {
        this.setup = setup;
        this.report = report;
        for (Cycle c : report.cycles()) {
            for (TapLevels l : c.levels()) {
                byTap.computeIfAbsent(l.tap(), t -> new ArrayList<>()).add(l);
                cycleOf.put(l, c.index());
            }
        }
    }

    List<Evidence> find() {
        Tap main = byTap.containsKey(Tap.DRAFT_SWITCH)
                ? Tap.DRAFT_SWITCH
                : byTap.containsKey(Tap.DRAFT_INDUCER) ? Tap.DRAFT_INDUCER : Tap.DRAFT_COLLECTOR;
        if (!byTap.containsKey(main)) {
            return List.of();
        }
        if (main == Tap.DRAFT_SWITCH) {
            margin();
        }
        rise(main);
        course(main);
        hours(main);
        movement(main);
        idle(main);
        afterStop(main);
        ratios();
        return List.copyOf(found);
    }

    private void margin() {
        Setup.PressureSwitch rating = setup.pressureSwitch();
        if (rating == null) {
            return;
        }
        double[] means = report.cycles().stream()
                .filter(c -> c.margin() != null)
                .mapToDouble(c -> c.plateauPascals() - rating.setPointPascals())
                .filter(v -> !Double.isNaN(v))
                .toArray();
        double level = means.length > 0
                ? Robust.median(means)
                : median(Tap.DRAFT_SWITCH, TapLevels::cold) - rating.setPointPascals();
        if (Double.isNaN(level)) {
            return;
        }
        String outcome =
                level < 0 ? "short" : level < 0.25 * INCH ? "thin" : level < 0.75 * INCH ? "modest" : "healthy";
        add(
                "margin",
                outcome,
                level < 0
                        ? text("suction stayed %.2f inH2O short of the set point", -level / INCH)
                        : text("suction was %.2f inH2O beyond the set point (median)", level / INCH),
                Tap.DRAFT_SWITCH);
    }

    private void rise(Tap tap) {
        double rise = median(tap, TapLevels::riseSeconds);
        if (!Double.isNaN(rise)) {
            add(
                    "rise",
                    rise < SLOW ? "quick" : rise < CREEPING ? "slow" : "creeping",
                    text("suction took %.1f s to nine tenths of its level (median)", rise),
                    tap);
        }
    }

    private void course(Tap tap) {
        double share = setup.inducerStages() == 2 ? Double.NaN : median(tap, TapLevels::lateShare);
        if (!Double.isNaN(share)) {
            add(
                    "course",
                    trend(share),
                    text("at the end of long runs suction was %.0f %% of what it was once warm (median)", 100 * share),
                    tap);
        }
    }

    private static String trend(double share) {
        return share < FADES ? "fades" : share > GROWS ? "grows" : "steady";
    }

    private void hours(Tap tap) {
        List<TapLevels> all = byTap.getOrDefault(tap, List.of()).stream()
                .filter(l -> !Double.isNaN(l.cold()))
                .toList();
        int third = all.size() / 3;
        if (third < 1 || all.get(all.size() - 1).startNanos() - all.get(0).startNanos() < HOUR / 2) {
            return;
        }
        double early = Robust.median(
                all.subList(0, third).stream().mapToDouble(TapLevels::cold).toArray());
        double late = Robust.median(all.subList(all.size() - third, all.size()).stream()
                .mapToDouble(TapLevels::cold)
                .toArray());
        double share = late / early;
        add(
                "hours",
                trend(share),
                text("cold suction in the last starts was %.0f %% of that in the first", 100 * share),
                tap);
    }

    private void movement(Tap main) {
        // Bubbles are heard best where the water is.
        Tap tap = main;
        for (Tap other : List.of(Tap.DRAFT_COLLECTOR, Tap.DRAFT_INDUCER)) {
            if (byTap.containsKey(other) && relativeSwing(other) > 1.3 * relativeSwing(tap)) {
                tap = other;
            }
        }
        double swing = relativeSwing(tap);
        if (Double.isNaN(swing)) {
            return;
        }
        double hertz = median(tap, TapLevels::rhythmHertz);
        double rhythm = upper(tap, TapLevels::rhythmShare);
        String words = text("suction moved by %.1f %% of its level", 100 * swing);
        if (swing >= MOVES && rhythm > 0.5 && hertz < 2) {
            add("movement", "periodic", words + text(", regularly at %.2f Hz", hertz), tap);
        } else if (quick(tap) > BURSTS) {
            add("movement", "bursts", words + text(", %.1f %% of it in quick bursts", 100 * quick(tap)), tap);
        } else if (swing >= MOVES) {
            add("movement", "gusty", words + ", slowly and irregularly", tap);
        } else {
            add("movement", "calm", words, tap);
        }
    }

    /** The part of the swing that is quick and more than the noise of the instrument, over the level. */
    private double quick(Tap tap) {
        return upper(
                tap, l -> Math.sqrt(Math.max(0, l.quickness() * sq(l.swing()) - 2.25 * sq(l.idleNoise()))) / level(l));
    }

    private static double level(TapLevels l) {
        return Math.max(20, Double.isNaN(l.hot()) ? Math.abs(l.cold()) : Math.abs(l.hot()));
    }

    private double relativeSwing(Tap tap) {
        return upper(tap, l -> l.swing() / level(l));
    }

    private void idle(Tap tap) {
        double swing = upper(tap, l -> Math.sqrt(Math.max(0, sq(l.idleSwing()) - sq(l.idleNoise()))));
        if (!Double.isNaN(swing)) {
            add(
                    "idle",
                    swing > 2.5 ? "moves" : "still",
                    text("with the inducer off the draft moved by %.1f Pa", swing),
                    tap);
        }
    }

    private static double sq(double x) {
        return x * x;
    }

    private void afterStop(Tap tap) {
        double level = median(tap, TapLevels::afterStop);
        double cold = median(tap, TapLevels::cold);
        double idle = upper(tap, TapLevels::idleSwing);
        if (!Double.isNaN(level) && cold > 0) {
            add(
                    "after-stop",
                    level < -Math.max(3, Math.max(0.015 * cold, Double.isNaN(idle) ? 0 : 1.5 * idle))
                            ? "above"
                            : "zero",
                    text("just after the inducer stopped the tap read %.1f Pa", -level),
                    tap);
        }
    }

    private void ratios() {
        double s = median(Tap.DRAFT_SWITCH, TapLevels::cold);
        double i = median(Tap.DRAFT_INDUCER, TapLevels::cold);
        double c = median(Tap.DRAFT_COLLECTOR, TapLevels::cold);
        double box = median(Tap.DRAFT_BURNER_BOX, l -> Double.isNaN(l.hot()) ? l.cold() : l.hot());
        double vent = median(Tap.DRAFT_VENT, TapLevels::cold);
        if (s / i > -10) {
            toInducer(s, i, c);
        }
        if (c / i > -10) {
            double share = c / i;
            // What every tap shows comes from the vent or the weather; bubbles are where the water is.
            double quick = quick(Tap.DRAFT_COLLECTOR);
            boolean bubbles = quick > BURSTS && quick > 1.5 * quick(Tap.DRAFT_INDUCER);
            add(
                    "collector-to-inducer",
                    bubbles ? "bubbling" : share < WEAK_COLLECTOR ? "weak" : "usual",
                    text("the collector saw %.0f %% of the inducer's suction when cold", 100 * share)
                            + (bubbles ? ", bubbling" : ""),
                    Tap.DRAFT_COLLECTOR);
        }
        double whole = Double.isNaN(i) ? s : i;
        if (box / whole > -10) {
            double share = box / whole;
            add(
                    "burner-box",
                    share > DEEP_BOX ? "deep" : "usual",
                    text("the burner box was at %.0f %% of the inducer's suction", 100 * share),
                    Tap.DRAFT_BURNER_BOX);
        }
        if (vent / whole > -10) {
            double share = -vent / whole;
            add(
                    "vent-pressure",
                    share > HIGH_VENT ? "high" : "usual",
                    text("the vent was above the room by %.0f %% of the inducer's suction", 100 * share),
                    Tap.DRAFT_VENT);
        }
    }

    private void toInducer(double s, double i, double c) {
        double riseS = median(Tap.DRAFT_SWITCH, TapLevels::riseSeconds);
        double riseI = median(Tap.DRAFT_INDUCER, TapLevels::riseSeconds);
        // Where the switch's tube comes from the collector, the collector is what to compare with.
        boolean atCollector = c / s > 0.97 && c / s < 1.03 && c < 0.93 * i;
        double later = riseS - (atCollector ? median(Tap.DRAFT_COLLECTOR, TapLevels::riseSeconds) : riseI);
        String outcome = later > 1 || s / i < 0.05 ? "slow" : s / i < 0.93 && !atCollector ? "fraction" : "equal";
        add(
                "switch-to-inducer",
                outcome,
                text("the switch port saw %.0f %% of the inducer port", 100 * s / i)
                        + (Double.isNaN(later) ? "" : text(", %.1f s later", later))
                        + (atCollector ? ", and what the collector saw" : ""),
                Tap.DRAFT_SWITCH);
    }

    private double median(Tap tap, ToDoubleFunction<TapLevels> value) {
        return Robust.median(values(tap, value));
    }

    /** The upper quarter: for what shows now and then. */
    private double upper(Tap tap, ToDoubleFunction<TapLevels> value) {
        double[] v = values(tap, value);
        return v.length == 0 ? Double.NaN : Robust.quantile(v, 0.75);
    }

    private double[] values(Tap tap, ToDoubleFunction<TapLevels> value) {
        @Nullable List<TapLevels> all = byTap.get(tap);
        return all == null
                ? new double[0]
                : all.stream()
                        .mapToDouble(value)
                        .filter(v -> !Double.isNaN(v) && !Double.isInfinite(v))
                        .toArray();
    }

    private static String text(String format, Object... values) {
        return String.format(Locale.ROOT, format, values);
    }

    private void add(String kind, String outcome, String words, Tap tap) {
        List<Seen> from = new ArrayList<>();
        for (TapLevels l : byTap.getOrDefault(tap, List.of())) {
            Integer cycle = cycleOf.get(l);
            from.add(new Seen(
                    cycle == null ? 0 : cycle, tap.role(), l.startNanos(), Math.max(l.startNanos(), l.endNanos())));
        }
        found.add(new Evidence(kind, outcome, words, from));
    }
}
