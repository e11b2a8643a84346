package draftwitness.diagnosis.guided;

import draftwitness.reading.Tap;
import draftwitness.setup.Setup.PressureSwitch;
import draftwitness.signal.LineFit;
import draftwitness.signal.Moments;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import org.jspecify.annotations.Nullable;

/**
 * A slow ramp of suction up and down with the contact channel. The suction at each change of the contact is read from a
 * straight line through the readings around it; changes that come without a ramp are left out and counted.
 *
 * <p>Uncertainty: Student's t on the spread over the ramps, joined with the instrument's step and with the time that
 * the contact was not looked at. A switch is within its rating if the whole interval is, off if none of it is.
 */
final class SwitchPoints implements Judge {
    static final int RAMPS = 3;

    /** Changes of the contact closer than this are bounces of one: 50 ms. */
    private static final long BOUNCE_NANOS = 50_000_000;

    private static final long AROUND_NANOS = 400_000_000;
    private static final double SLOWEST = 0.3;
    private static final double FASTEST = 60;
    private static final double QUICK = 20;
    private static final double[] T95 = {12.706, 4.303, 3.182, 2.776, 2.571, 2.447, 2.365, 2.306, 2.262};

    @Override
    public List<Part> parts(Set<Tap> taps, @Nullable Tap chosen) {
        return taps.contains(Tap.DRAFT_SWITCH) && taps.contains(Tap.CONTACT_SWITCH)
                ? List.of(new Part("ramps", List.of(Tap.DRAFT_SWITCH, Tap.CONTACT_SWITCH), 2, 600))
                : List.of();
    }

    @Override
    public String needs() {
        return "the switch's tube (" + Tap.DRAFT_SWITCH.role() + ") and its contact (" + Tap.CONTACT_SWITCH.role()
                + ") through an isolated input";
    }

    @Override
    public boolean enough(PartReadings readings, Terms terms) {
        Points points = points(readings);
        return points.makes.count() >= RAMPS && points.breaks.count() >= RAMPS;
    }

    /** What the ramps brought; suction in pascal. */
    private static final class Points {
        final Moments makes = new Moments();
        final Moments breaks = new Moments();
        int leftOut;
        double quickest;
        double blindPascals;
    }

    @Override
    public Judgement judge(Map<String, PartReadings> parts, Terms terms) {
        PartReadings ramps = parts.get("ramps");
        if (ramps == null || ramps.main().size() < 4) {
            return Judgement.undecided("Too few readings.");
        }
        Points points = points(ramps);
        if (points.makes.count() == 0 && points.breaks.count() == 0) {
            return Judgement.undecided("The contact did not change on a slow ramp yet"
                    + (points.leftOut > 0 ? " (" + points.leftOut + " changes without a ramp)." : "."));
        }
        return judge(points, ramps.main().step(), terms);
    }

    private static Points points(PartReadings ramps) {
        Points points = new Points();
        Samples contact = ramps.at(Tap.CONTACT_SWITCH);
        long ignoreUntil = Long.MIN_VALUE;
        for (int i = 1; i < contact.size(); i++) {
            boolean before = contact.value(i - 1) > 0.5;
            boolean after = contact.value(i) > 0.5;
            if (before == after || contact.time(i) < ignoreUntil) {
                continue;
            }
            ignoreUntil = contact.time(i) + BOUNCE_NANOS;
            if (stays(contact, i, after)) {
                take(
                        points,
                        ramps.main(),
                        contact.time(i),
                        Math.min(contact.time(i) - contact.time(i - 1), AROUND_NANOS),
                        after);
            }
        }
        return points;
    }

    /** Whether the state after the bounces is the new one. */
    private static boolean stays(Samples contact, int i, boolean state) {
        boolean last = state;
        for (int k = i; k < contact.size() && contact.time(k) < contact.time(i) + BOUNCE_NANOS; k++) {
            last = contact.value(k) > 0.5;
        }
        return last == state;
    }

    private static void take(Points points, Samples pressure, long time, long blindNanos, boolean makes) {
        int from = pressure.at(time - AROUND_NANOS);
        int to = pressure.at(time + AROUND_NANOS + 1);
        if (to - from < 4) {
            from = Math.max(0, pressure.at(time) - 2); // a slow instrument: two readings on each side
            to = Math.min(pressure.size(), from + 4);
        }
        if (to - from < 4) {
            points.leftOut++;
            return;
        }
        double[] seconds = new double[to - from];
        double[] suction = new double[to - from];
        for (int i = from; i < to; i++) {
            seconds[i - from] = (pressure.time(i) - time) / 1e9;
            suction[i - from] = -pressure.value(i);
        }
        LineFit line = LineFit.of(seconds, suction);
        double rate = makes ? line.slope() : -line.slope();
        if (rate < SLOWEST || rate > FASTEST) {
            points.leftOut++;
            return;
        }
        points.quickest = Math.max(points.quickest, rate);
        points.blindPascals = Math.max(points.blindPascals, rate * blindNanos / 1e9);
        (makes ? points.makes : points.breaks).add(line.intercept());
    }

    private static Judgement judge(Points p, double step, Terms terms) {
        double single = Math.hypot(step, p.blindPascals) / Math.sqrt(12);
        List<Figure> figures = new ArrayList<>();
        if (p.makes.count() > 0) {
            figures.add(new Figure("make", p.makes.mean(), uncertainty(p.makes, single), Scale.PASCAL));
        }
        if (p.breaks.count() > 0) {
            figures.add(new Figure("break", p.breaks.mean(), uncertainty(p.breaks, single), Scale.PASCAL));
        }
        if (p.makes.count() > 0 && p.breaks.count() > 0) {
            double both = Math.hypot(uncertainty(p.makes, single), uncertainty(p.breaks, single));
            figures.add(new Figure("differential", p.makes.mean() - p.breaks.mean(), both, Scale.PASCAL));
        }
        if (p.makes.count() > 1) {
            figures.add(Figure.exact("repeatability", p.makes.deviation(), Scale.PASCAL));
        }
        figures.add(Figure.exact("ramps", (double) Math.max(p.makes.count(), p.breaks.count()), Scale.COUNT));
        List<String> remarks = new ArrayList<>();
        if (p.leftOut > 0) {
            remarks.add(p.leftOut + " changes of the contact came without a slow ramp and were left out.");
        }
        if (p.quickest > QUICK) {
            remarks.add(String.format(
                    Locale.ROOT,
                    "The quickest ramp rose %.0f Pa/s; slower ones leave less room for the instrument's own delay.",
                    p.quickest));
        }
        return against(p, single, figures, remarks, terms);
    }

    private static double uncertainty(Moments values, double single) {
        int n = (int) values.count();
        if (n < 2) {
            return Double.NaN;
        }
        double t = n - 2 < T95.length ? T95[n - 2] : 2.0 + 2.4 / n;
        return Math.hypot(t * values.deviation() / Math.sqrt(n), 2 * single);
    }

    private static Judgement against(Points p, double single, List<Figure> figures, List<String> remarks, Terms terms) {
        PressureSwitch plate = terms.plate().pressureSwitch();
        if (p.makes.count() >= RAMPS && plate != null && p.makes.deviation() > plate.tolerancePascals()) {
            figures.add(Figure.exact("erratic", p.makes.deviation(), Scale.PASCAL));
            String spread = Telling.pressure(p.makes.deviation(), terms.unit());
            return new Judgement(
                    Grade.FAULT,
                    "It does not make at one pressure: the makes spread by " + spread + ", more than its tolerance.",
                    figures,
                    remarks);
        }
        if (p.makes.count() < 2) {
            return new Judgement(
                    Grade.UNDECIDED,
                    "One ramp is not enough to know how well it repeats; " + RAMPS + " tell.",
                    figures,
                    remarks);
        }
        double make = p.makes.mean();
        double off = uncertainty(p.makes, single);
        String at = "It makes at " + Telling.pressure(make, off, terms.unit());
        if (plate == null) {
            return new Judgement(
                    Grade.UNJUDGED, at + "; enter the set point from the plate to judge it.", figures, remarks);
        }
        figures.add(new Figure("off-set-point", make - plate.setPointPascals(), off, Scale.PASCAL));
        double away = Math.abs(make - plate.setPointPascals());
        double tolerance = plate.tolerancePascals();
        Grade grade = away + off <= tolerance
                ? Grade.FINE
                : away - off > 2 * tolerance ? Grade.FAULT : away - off > tolerance ? Grade.ATTENTION : Grade.UNDECIDED;
        String rated = "the rated " + Telling.pressure(plate.setPointPascals(), tolerance, terms.unit());
        String verdict = switch (grade) {
            case FINE, UNJUDGED -> at + ": within " + rated + ". The switch tells the truth.";
            case UNDECIDED -> at + "; with that uncertainty it may be in or out of " + rated + ".";
            case ATTENTION -> at + ": outside " + rated + ".";
            case FAULT -> at + ": more than twice its tolerance away from " + rated + ", repeatably.";
        };
        return new Judgement(grade, verdict, figures, remarks);
    }
}
