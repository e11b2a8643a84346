package draftwitness.diagnosis.guided;

import draftwitness.reading.Tap;
import draftwitness.setup.Setup.PressureSwitch;
import draftwitness.signal.DecayFit;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.jspecify.annotations.Nullable;

/**
 * Suction on switch and tube, pinched off.
 *
 * <p>Air that leaks in through a narrow place flows in proportion to the pressure across it, so a closed volume loses
 * suction as {@code p(t) = p0 exp(-t/tau)} with {@code tau = V/G}: {@code V} the volume and {@code G} the leak's
 * conductance, as a flow of pressure times volume for each pascal (the p-V flow of a pressure-decay test, {@code V
 * dp/dt}; 40 CFR 1065.644 has the same in moles).
 *
 * <p>What such a leak does in service: the tube lets the switch's volume follow with a time constant of its own, at
 * most about a tenth of a second when it is clear, and the leak takes the share {@code tubeTau / (tubeTau + tau)} of
 * the suction. Under one percent is called tight, above five percent a leak; the limits are our own choice.
 */
final class LeakDown implements Judge {
    /** Time constant of a clear tube with its switch, at most; seconds; from memory. */
    static final double TUBE_SECONDS = 0.1;

    static final double TIGHT_SHARE = 0.01;
    static final double LEAK_SHARE = 0.05;

    private static final double LEAST_START_PASCALS = 25;
    private static final double LEAST_SECONDS = 5;
    private static final int FEWEST = 20;
    private static final int MOST_POINTS = 2000;
    private static final double AIR_PASCALS = 101_325;

    @Override
    public List<Part> parts(Set<Tap> taps, @Nullable Tap chosen) {
        Tap tap = chosen != null ? chosen : Tap.DRAFT_SWITCH;
        return taps.contains(tap) ? List.of(new Part("decay", tap, LEAST_SECONDS, 60)) : List.of();
    }

    @Override
    public String needs() {
        return "a pressure channel on the switch's tube (" + Tap.DRAFT_SWITCH.role() + ")";
    }

    @Override
    public Judgement judge(Map<String, PartReadings> parts, Terms terms) {
        return decay(parts.get("decay"), terms);
    }

    /** Judges one decay. */
    static Judgement decay(@Nullable PartReadings decay, Terms terms) {
        if (decay == null || decay.main().size() < FEWEST) {
            return Judgement.undecided("Too few readings for a decay.");
        }
        Samples falling = falling(decay.main());
        if (falling.size() < FEWEST || falling.length() < 1) {
            return Judgement.undecided("No decay yet: pull suction, pinch the tube off and wait.");
        }
        double start = falling.value(0);
        if (Math.abs(start) < LEAST_START_PASCALS) {
            return Judgement.undecided("It starts at " + Telling.pressure(start, terms.unit())
                    + ": too little; pull suction beyond the set point before pinching off.");
        }
        Samples points = falling.thinned(MOST_POINTS);
        return judge(DecayFit.of(points.seconds(), points.values()), falling.length(), terms);
    }

    /**
     * The part after pinching off: from the last moment at nearly full suction; or, when hardly anything was lost, from
     * the first.
     */
    static Samples falling(Samples all) {
        Samples smooth = all.thinned(Math.max(FEWEST, Math.min(all.size(), (int) Math.ceil(4 * all.length()) + 1)));
        double most = 0;
        for (int i = 0; i < smooth.size(); i++) {
            most = Math.max(most, Math.abs(smooth.value(i)));
        }
        int first = -1;
        int last = 0;
        for (int i = 0; i < smooth.size(); i++) {
            if (Math.abs(smooth.value(i)) >= 0.97 * most) {
                first = first < 0 ? i : first;
                last = i;
            }
        }
        boolean held = Math.abs(smooth.value(smooth.size() - 1)) >= 0.9 * most;
        // The group after the last full one may still hold the moment of pinching: it is left out.
        int clear = Math.min(last + 2, smooth.size() - 1);
        int from = all.at(smooth.time(held ? first : clear));
        return end(all.part(from, all.size()));
    }

    /** Without the tail at zero, which says nothing more of the leak. */
    private static Samples end(Samples falling) {
        double begin = Math.abs(falling.value(0));
        int to = falling.size();
        for (int i = FEWEST; i < falling.size(); i++) {
            if (Math.abs(falling.value(i)) < 0.02 * begin) {
                to = i;
                break;
            }
        }
        return falling.part(0, to);
    }

    private static Judgement judge(DecayFit fit, double seconds, Terms terms) {
        double rate = Math.max(0, fit.rate());
        double spread = 2 * fit.rateDeviation();
        double low = share(Math.max(0, fit.rate() - spread));
        double high = share(Math.max(0, fit.rate() + spread));
        Grade grade = high < TIGHT_SHARE
                ? Grade.FINE
                : low > LEAK_SHARE
                        ? Grade.FAULT
                        : low > TIGHT_SHARE && high < LEAK_SHARE ? Grade.ATTENTION : Grade.UNDECIDED;
        List<String> remarks = new ArrayList<>();
        if (fit.residualDeviation() > 0.1 * Math.abs(fit.start())) {
            grade = Grade.UNDECIDED;
            remarks.add("It does not fall like one steady leak: was the tube moved, or the pinch not tight?");
        }
        remarks.add("Suction lost in service is reckoned for a clear tube (time constant 0.1 s, from memory).");
        remarks.add("Tube and diaphragm are tested together: only a second test with the switch pinched off tells them"
                + " apart.");
        return new Judgement(grade, verdict(grade, fit, spread, seconds), figures(fit, rate, spread, terms), remarks);
    }

    /** The part of the suction that a leak takes in service. */
    static double share(double rate) {
        return TUBE_SECONDS * rate / (1 + TUBE_SECONDS * rate);
    }

    private static String verdict(Grade grade, DecayFit fit, double spread, double seconds) {
        if (fit.rate() <= spread) {
            String held = "It holds: no loss could be measured in " + Telling.seconds(seconds)
                    + "; the time constant is over " + Telling.seconds(1 / (Math.max(0, fit.rate()) + spread));
            return grade == Grade.FINE ? held + "." : held + ", which is too short a test to call it tight.";
        }
        String tau = "time constant " + Telling.seconds(fit.timeConstant(), 2 * fit.timeConstantDeviation());
        String lost = Telling.percent(share(fit.rate())) + " of the suction in service";
        return switch (grade) {
            case FINE, UNJUDGED -> "Tight enough: " + tau + ", a leak of about " + lost + ".";
            case ATTENTION -> "A small leak: " + tau + ", about " + lost + ".";
            case FAULT -> "It leaks: " + tau + ", about " + lost + ".";
            case UNDECIDED -> "Cannot tell: " + tau + "; test longer or start from more suction.";
        };
    }

    private static List<Figure> figures(DecayFit fit, double rate, double spread, Terms terms) {
        List<Figure> figures = new ArrayList<>();
        boolean lost = fit.rate() > spread;
        figures.add(new Figure(
                "time-constant",
                lost ? fit.timeConstant() : 1 / (rate + spread),
                lost ? 2 * fit.timeConstantDeviation() : Double.NaN,
                Scale.SECOND));
        figures.add(new Figure("start", fit.start(), 2 * fit.startDeviation(), Scale.PASCAL));
        figures.add(new Figure("loss-in-service", share(rate), TUBE_SECONDS * spread, Scale.SHARE));
        double conductance = terms.volumeCubicMetres() * rate;
        figures.add(new Figure(
                "conductance", conductance, terms.volumeCubicMetres() * spread, Scale.CUBIC_METRE_PER_SECOND));
        PressureSwitch plate = terms.plate().pressureSwitch();
        double at = plate == null ? Math.abs(fit.start()) : plate.setPointPascals();
        figures.add(new Figure(
                "air-at-set-point",
                roomAir(conductance * at),
                roomAir(terms.volumeCubicMetres() * spread * at),
                Scale.CUBIC_METRE_PER_SECOND));
        if (!Double.isNaN(fit.determination())) {
            figures.add(Figure.exact("explained", fit.determination(), Scale.SHARE));
        }
        return figures;
    }

    /** The p-V flow into a volume whose pressure changes: {@code V dp/dt}, in Pa m3/s. */
    static double pressureVolumeFlow(double volumeCubicMetres, double pascalsPerSecond) {
        return volumeCubicMetres * pascalsPerSecond;
    }

    /** How much room air a p-V flow is, in m3/s, at 101 325 Pa. */
    static double roomAir(double pressureVolumeFlow) {
        return pressureVolumeFlow / AIR_PASCALS;
    }
}
