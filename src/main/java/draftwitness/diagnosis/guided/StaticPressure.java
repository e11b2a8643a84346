package draftwitness.diagnosis.guided;

import draftwitness.reading.Tap;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.jspecify.annotations.Nullable;

/**
 * What the blower works against outside the furnace: return suction plus supply pressure, against the rating; and which
 * share filter and coil take of it, where their taps are read.
 */
final class StaticPressure implements Judge {
    private static final List<Tap> FURTHER =
            List.of(Tap.STATIC_AFTER_FILTER, Tap.STATIC_BEFORE_COIL, Tap.STATIC_AFTER_COIL);

    @Override
    public List<Part> parts(Set<Tap> taps, @Nullable Tap chosen) {
        if (!taps.contains(Tap.STATIC_RETURN) || !taps.contains(Tap.STATIC_SUPPLY)) {
            return List.of();
        }
        List<Tap> read = new ArrayList<>(List.of(Tap.STATIC_RETURN, Tap.STATIC_SUPPLY));
        FURTHER.stream().filter(taps::contains).forEach(read::add);
        return List.of(new Part("blower", read, 10, 30));
    }

    @Override
    public String needs() {
        return Tap.STATIC_RETURN.role() + " and " + Tap.STATIC_SUPPLY.role() + " at the same time";
    }

    @Override
    public Judgement judge(Map<String, PartReadings> parts, Terms terms) {
        PartReadings blower = parts.get("blower");
        Level back = Level.at(blower, Tap.STATIC_RETURN);
        Level supply = Level.at(blower, Tap.STATIC_SUPPLY);
        if (blower == null || back == null || supply == null) {
            return Judgement.undecided("Too few readings of return and supply.");
        }
        double total = supply.mean() - back.mean();
        double off = Math.hypot(supply.uncertainty(), back.uncertainty());
        List<Figure> figures = new ArrayList<>();
        List<String> remarks = new ArrayList<>();
        figures.add(new Figure("external-static", total, off, Scale.PASCAL));
        figures.add(new Figure("return", back.mean(), back.uncertainty(), Scale.PASCAL));
        figures.add(new Figure("supply", supply.mean(), supply.uncertainty(), Scale.PASCAL));
        Level filter = Level.at(blower, Tap.STATIC_AFTER_FILTER);
        double withFilter = total;
        if (filter != null) {
            double drop = back.mean() - filter.mean();
            withFilter = total + Math.max(0, drop);
            share(figures, "filter", drop, Math.hypot(back.uncertainty(), filter.uncertainty()), withFilter);
        }
        Level before = Level.at(blower, Tap.STATIC_BEFORE_COIL);
        Level after = Level.at(blower, Tap.STATIC_AFTER_COIL);
        if (before != null && after != null) {
            double drop = before.mean() - after.mean();
            share(figures, "coil", drop, Math.hypot(before.uncertainty(), after.uncertainty()), withFilter);
        }
        if (back.mean() > 0 || supply.mean() < 0) {
            remarks.add("Return should read suction and supply pressure: are hoses or ports exchanged?");
            return new Judgement(
                    Grade.UNDECIDED,
                    "Return " + Telling.pressure(back.mean(), back.uncertainty(), terms.unit()) + ", supply "
                            + Telling.pressure(supply.mean(), supply.uncertainty(), terms.unit())
                            + ": not as they should be with the blower on, so nothing is judged.",
                    figures,
                    remarks);
        }
        remarks.add(
                filter == null
                        ? "Return is read before the filter: what the filter takes is not in it."
                        : "Shares are of return, filter and supply together.");
        return judge(total, off, figures, remarks, terms);
    }

    private static void share(List<Figure> figures, String id, double drop, double off, double whole) {
        figures.add(new Figure(id + "-drop", drop, off, Scale.PASCAL));
        if (whole > 0) {
            figures.add(new Figure(id + "-share", drop / whole, off / whole, Scale.SHARE));
        }
    }

    private static Judgement judge(double total, double off, List<Figure> figures, List<String> remarks, Terms terms) {
        Double most = terms.plate().externalStaticMaxPascals();
        String told = "External static " + Telling.pressure(total, off, terms.unit());
        if (most == null) {
            return new Judgement(Grade.UNJUDGED, told + "; enter the plate's rating to judge it.", figures, remarks);
        }
        figures.add(new Figure("of-rating", total / most, off / most, Scale.SHARE));
        Grade grade = total + off <= most ? Grade.FINE : total - off > most ? Grade.FAULT : Grade.UNDECIDED;
        String rated = Telling.pressure(most, terms.unit()) + " rated";
        String verdict = switch (grade) {
            case FINE, UNJUDGED, ATTENTION -> told + " of " + rated + ": the ducts let the blower breathe.";
            case UNDECIDED -> told + " of " + rated + ": too close to call.";
            case FAULT -> told + " of " + rated + ": too much; look at filter, coil, registers and duct size.";
        };
        return new Judgement(grade, verdict, figures, remarks);
    }
}
