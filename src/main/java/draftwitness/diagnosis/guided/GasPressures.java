package draftwitness.diagnosis.guided;

import draftwitness.reading.Tap;
import draftwitness.setup.Setup.Gas;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.jspecify.annotations.Nullable;

/**
 * Gas pressures against the plate. The flow through a burner orifice goes with the root of the pressure across it, so
 * input changes by {@code sqrt(p/plate) - 1} (orifice law; NFPA 54 Annex E sizes orifices by it): twice the pressure is
 * 41 % more. The pressure across the orifice is manifold less burner box; where the burner box is read it is taken off.
 */
final class GasPressures implements Judge {
    static final double MANIFOLD_BAND = 0.10;
    static final double DROP_LIMIT = 0.15;

    /** Rise a minute, of the level, above which an inlet that is shut off creeps; our own choice. */
    private static final double CREEP_A_MINUTE = 0.02;

    @Override
    public List<Part> parts(Set<Tap> taps, @Nullable Tap chosen) {
        List<Part> parts = new ArrayList<>();
        if (taps.contains(Tap.GAS_INLET)) {
            parts.add(new Part("standing", Tap.GAS_INLET, 5, 10));
            parts.add(new Part("firing", Tap.GAS_INLET, 10, 30));
            parts.add(new Part("lock-up", Tap.GAS_INLET, 10, 30));
        }
        if (taps.contains(Tap.GAS_MANIFOLD)) {
            List<Tap> read = taps.contains(Tap.DRAFT_BURNER_BOX)
                    ? List.of(Tap.GAS_MANIFOLD, Tap.DRAFT_BURNER_BOX)
                    : List.of(Tap.GAS_MANIFOLD);
            parts.add(new Part("manifold", read, 10, 30));
        }
        return parts;
    }

    @Override
    public String needs() {
        return Tap.GAS_INLET.role() + " or " + Tap.GAS_MANIFOLD.role();
    }

    /** Gathers sentences and the worst grade. */
    private static final class Report {
        final List<String> sentences = new ArrayList<>();
        final List<Figure> figures = new ArrayList<>();
        final List<String> remarks = new ArrayList<>();
        Grade grade = Grade.UNJUDGED;

        void say(Grade part, String sentence) {
            grade = grade.worse(part);
            sentences.add(sentence);
        }
    }

    @Override
    public Judgement judge(Map<String, PartReadings> parts, Terms terms) {
        Report report = new Report();
        Level manifold = level(parts.get("manifold"));
        Level standing = level(parts.get("standing"));
        Level firing = level(parts.get("firing"));
        Level lockUp = level(parts.get("lock-up"));
        if (manifold != null) {
            Level box = Level.at(parts.get("manifold"), Tap.DRAFT_BURNER_BOX);
            manifold(report, manifold, box, terms);
        }
        if (standing != null) {
            inlet(report, "standing", standing, terms);
        }
        if (firing != null) {
            inlet(report, "firing", firing, terms);
        }
        if (standing != null && firing != null) {
            drop(report, standing, firing);
        }
        if (lockUp != null) {
            lockUp(report, lockUp, firing, terms);
        }
        if (report.sentences.isEmpty()) {
            return Judgement.undecided("Too few readings.");
        }
        report.remarks.add("Uncertainties hold noise and drift while measuring, not the instrument's calibration.");
        return new Judgement(report.grade, String.join(" ", report.sentences), report.figures, report.remarks);
    }

    private static @Nullable Level level(@Nullable PartReadings part) {
        return part == null ? null : Level.at(part, part.part().taps().get(0));
    }

    private static void manifold(Report r, Level level, @Nullable Level box, Terms terms) {
        Gas gas = terms.plate().gas();
        Double plate = terms.lowFire() ? gas.lowFireManifoldPascals() : gas.manifoldPascals();
        double across = level.mean() - (box == null ? 0 : box.mean());
        double off = Math.hypot(level.uncertainty(), box == null ? 0 : box.uncertainty());
        r.figures.add(new Figure("manifold", across, off, Scale.PASCAL));
        String told = "Manifold " + Telling.pressure(across, off, terms.unit());
        if (box != null) {
            r.remarks.add("The burner box was taken off the manifold: the orifice feels the difference.");
        }
        if (plate == null) {
            r.say(Grade.UNJUDGED, told + "; enter the plate's manifold pressure to judge it.");
            return;
        }
        double share = across / plate - 1;
        double shareOff = off / plate;
        double input = inputChange(across, plate);
        double inputOff = across > 0 ? 0.5 * off / Math.sqrt(across * plate) : Double.NaN;
        r.figures.add(new Figure("manifold-off-plate", share, shareOff, Scale.SHARE));
        r.figures.add(new Figure("input-change", input, inputOff, Scale.SHARE));
        Grade grade = Math.abs(share) + shareOff <= MANIFOLD_BAND
                ? Grade.FINE
                : Math.abs(share) - shareOff > MANIFOLD_BAND ? Grade.FAULT : Grade.UNDECIDED;
        String fire = terms.lowFire() ? " at low fire" : "";
        String against = told + fire + " against " + Telling.pressure(plate, terms.unit()) + " on the plate: input "
                + Telling.change(input, inputOff);
        r.say(
                grade,
                switch (grade) {
                    case FINE, UNJUDGED -> against + ", near enough.";
                    case UNDECIDED, ATTENTION -> against + "; too close to the limit of 10 % to call.";
                    case FAULT -> against + ". Set it to the plate.";
                });
    }

    /** Change of input as a share when the pressure across the orifices is {@code pascals} instead of the plate's. */
    static double inputChange(double pascals, double platePascals) {
        return Math.sqrt(Math.max(0, pascals) / platePascals) - 1;
    }

    private static void inlet(Report r, String part, Level level, Terms terms) {
        Gas gas = terms.plate().gas();
        r.figures.add(new Figure("inlet-" + part, level.mean(), level.uncertainty(), Scale.PASCAL));
        String told = "Inlet " + part + " " + Telling.pressure(level.mean(), level.uncertainty(), terms.unit());
        Double least = gas.inletMinPascals();
        Double most = gas.inletMaxPascals();
        if (least == null && most == null) {
            r.say(Grade.UNJUDGED, told + ".");
        } else if (least != null && level.mean() + level.uncertainty() < least) {
            r.say(Grade.FAULT, told + ": below the plate's least, " + Telling.pressure(least, terms.unit()) + ".");
        } else if (most != null && level.mean() - level.uncertainty() > most) {
            r.say(Grade.FAULT, told + ": above the plate's most, " + Telling.pressure(most, terms.unit()) + ".");
        } else {
            r.say(Grade.FINE, told + ", within the plate.");
        }
    }

    private static void drop(Report r, Level standing, Level firing) {
        double drop = 1 - firing.mean() / standing.mean();
        double off = Math.hypot(standing.uncertainty(), firing.uncertainty()) / Math.abs(standing.mean());
        r.figures.add(new Figure("inlet-drop", drop, off, Scale.SHARE));
        if (drop - off > DROP_LIMIT) {
            r.say(
                    Grade.ATTENTION,
                    "It sags by " + Telling.percent(drop, off)
                            + " when all fire: look at pipe size, regulator, meter and valves.");
        }
    }

    private static void lockUp(Report r, Level level, @Nullable Level firing, Terms terms) {
        r.figures.add(new Figure("lock-up", level.mean(), level.uncertainty(), Scale.PASCAL));
        double minute = 60 * level.slope() / level.mean();
        double minuteOff = Math.abs(60 * level.slopeUncertainty() / level.mean());
        r.figures.add(new Figure("creep-a-minute", minute, minuteOff, Scale.SHARE));
        if (firing != null) {
            r.figures.add(new Figure(
                    "lock-up-rise",
                    level.mean() - firing.mean(),
                    Math.hypot(level.uncertainty(), firing.uncertainty()),
                    Scale.PASCAL));
        }
        Double most = terms.plate().gas().inletMaxPascals();
        String told = "Shut off it stands at " + Telling.pressure(level.mean(), level.uncertainty(), terms.unit());
        if (minute - minuteOff > CREEP_A_MINUTE) {
            r.say(
                    Grade.FAULT,
                    told + " and creeps up by " + Telling.percent(minute, minuteOff)
                            + " a minute: the regulator does not lock up.");
        } else if (most != null && level.mean() - level.uncertainty() > most) {
            r.say(Grade.FAULT, told + ": above the plate's most, " + Telling.pressure(most, terms.unit()) + ".");
        } else {
            r.say(Grade.FINE, told + " and holds.");
        }
    }
}
