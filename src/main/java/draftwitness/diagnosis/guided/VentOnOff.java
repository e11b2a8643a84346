package draftwitness.diagnosis.guided;

import draftwitness.reading.Tap;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.jspecify.annotations.Nullable;

/**
 * The same draft tap with the vent on and off, inducer running, burner off. What suction gains without the vent is what
 * the vent costs. A vent that costs more than a quarter of the suction is called restricted, less than an eighth clear;
 * the limits are our own choice, since lengths and diameters differ.
 */
final class VentOnOff implements Judge {
    static final double CLEAR_GAIN = 0.125;
    static final double RESTRICTED_GAIN = 0.25;

    @Override
    public List<Part> parts(Set<Tap> taps, @Nullable Tap chosen) {
        Tap tap = Pairs.draftTap(taps, chosen);
        return tap == null ? List.of() : List.of(new Part("on", tap, 8, 20), new Part("off", tap, 8, 20));
    }

    @Override
    public String needs() {
        return Tap.DRAFT_INDUCER.role() + ", " + Tap.DRAFT_SWITCH.role() + " or " + Tap.DRAFT_COLLECTOR.role();
    }

    @Override
    public Judgement judge(Map<String, PartReadings> parts, Terms terms) {
        Pairs pair = Pairs.of(parts.get("on"), parts.get("off"));
        if (pair == null) {
            return Judgement.undecided("It takes readings with the vent on and with the vent off.");
        }
        if (Math.abs(pair.first().mean()) < 20 && Math.abs(pair.second().mean()) < 20) {
            return Judgement.undecided("The inducer does not run: there is no suction to compare.");
        }
        List<Figure> figures = new ArrayList<>();
        figures.add(new Figure("vent-on", pair.first().mean(), pair.first().uncertainty(), Scale.PASCAL));
        figures.add(new Figure("vent-off", pair.second().mean(), pair.second().uncertainty(), Scale.PASCAL));
        double gain = Math.abs(pair.second().mean()) / Math.abs(pair.first().mean()) - 1;
        double off = pair.ratioUncertainty();
        figures.add(new Figure("gain", gain, off, Scale.SHARE));
        Grade grade =
                gain + off < CLEAR_GAIN ? Grade.FINE : gain - off > RESTRICTED_GAIN ? Grade.FAULT : Grade.UNDECIDED;
        if (grade == Grade.UNDECIDED && gain - off > CLEAR_GAIN && gain + off < RESTRICTED_GAIN) {
            grade = Grade.ATTENTION;
        }
        String told = "Without the vent suction changes by " + Telling.change(gain, off) + ", from "
                + Telling.pressure(pair.first().mean(), terms.unit()) + " to "
                + Telling.pressure(pair.second().mean(), terms.unit());
        String verdict = switch (grade) {
            case FINE, UNJUDGED -> told + ": the vent is not what holds it back.";
            case ATTENTION -> told + ": the vent costs a good part; look at length, elbows and terminal.";
            case FAULT -> told + ": the vent is restricted; find the blockage before it runs again.";
            case UNDECIDED -> told + ": too close to call.";
        };
        return new Judgement(
                grade,
                verdict,
                figures,
                List.of("Compare at the same inducer speed and with the burner off; put the vent back before firing."));
    }
}
