package draftwitness.diagnosis.guided;

import draftwitness.reading.Quantity;
import draftwitness.reading.Tap;
import draftwitness.setup.Setup.PressureSwitch;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.jspecify.annotations.Nullable;

/**
 * The same tap in two stretches, of one recording or of two: did the repair change it, and is it beyond what the
 * readings scatter anyway? On a draft tap with a set point, the margin after it is judged by the usual bands (0.25 and
 * 0.75 in w.c.; common practice, no source).
 */
final class BeforeAfter implements Judge {
    static final double THIN = 0.25 * 249.08891;

    @Override
    public List<Part> parts(Set<Tap> taps, @Nullable Tap chosen) {
        Tap tap = chosen != null || !taps.contains(Tap.DRAFT_SWITCH) ? chosen : Tap.DRAFT_SWITCH;
        if (tap == null) {
            tap = taps.stream()
                    .filter(t -> t.quantity() == Quantity.PRESSURE)
                    .sorted()
                    .findFirst()
                    .orElse(null);
        }
        return tap == null || !taps.contains(tap)
                ? List.of()
                : List.of(new Part("before", tap, 5, 60), new Part("after", tap, 5, 60));
    }

    @Override
    public String needs() {
        return "a pressure channel";
    }

    @Override
    public Judgement judge(Map<String, PartReadings> parts, Terms terms) {
        PartReadings after = parts.get("after");
        Pairs pair = Pairs.of(parts.get("before"), after);
        if (pair == null || after == null) {
            return Judgement.undecided("It takes readings from before and from after.");
        }
        Level was = pair.first();
        Level is = pair.second();
        double change = is.mean() - was.mean();
        double off = Math.hypot(was.uncertainty(), is.uncertainty());
        List<Figure> figures = new ArrayList<>();
        figures.add(new Figure("before", was.mean(), was.uncertainty(), Scale.PASCAL));
        figures.add(new Figure("after", is.mean(), is.uncertainty(), Scale.PASCAL));
        figures.add(new Figure("change", change, off, Scale.PASCAL));
        figures.add(Figure.exact("scatter-before", was.deviation(), Scale.PASCAL));
        figures.add(Figure.exact("scatter-after", is.deviation(), Scale.PASCAL));
        Tap tap = after.part().taps().get(0);
        String name = Taps.name(tap);
        String told = Math.abs(change) <= off
                ? "No change at the " + name + " beyond what the readings scatter ("
                        + Telling.pressure(change, off, terms.unit()) + ")"
                : "The " + name + " went from " + Telling.pressure(was.mean(), was.uncertainty(), terms.unit()) + " to "
                        + Telling.pressure(is.mean(), is.uncertainty(), terms.unit());
        PressureSwitch plate = terms.plate().pressureSwitch();
        if (tap != Tap.DRAFT_SWITCH || plate == null || plate.ports() == 2) {
            return new Judgement(Grade.UNJUDGED, told + ".", figures, List.of());
        }
        return judge(told, was, is, plate.setPointPascals(), figures, terms);
    }

    private static Judgement judge(
            String told, Level was, Level is, double setPoint, List<Figure> figures, Terms terms) {
        double margin = -is.mean() - setPoint;
        figures.add(new Figure("margin-before", -was.mean() - setPoint, was.uncertainty(), Scale.PASCAL));
        figures.add(new Figure("margin-after", margin, is.uncertainty(), Scale.PASCAL));
        Grade grade = margin - is.uncertainty() > THIN
                ? Grade.FINE
                : margin + is.uncertainty() < 0 ? Grade.FAULT : Grade.ATTENTION;
        String now = "; " + Telling.pressure(Math.abs(margin), is.uncertainty(), terms.unit())
                + (margin < 0 ? " short of" : " beyond") + " the set point now";
        return new Judgement(
                grade,
                told + now + (grade == Grade.ATTENTION ? ": still thin." : "."),
                figures,
                List.of("Compare the same phase: both warm, or both in pre-purge."));
    }
}
