package draftwitness.diagnosis.guided;

import draftwitness.reading.Tap;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.jspecify.annotations.Nullable;

/** Leak-downs of the tube alone and of the switch alone, which tell a leaking tube from a pinhole in the diaphragm. */
final class LeakDownParts implements Judge {
    @Override
    public List<Part> parts(Set<Tap> taps, @Nullable Tap chosen) {
        Tap tap = chosen != null ? chosen : Tap.DRAFT_SWITCH;
        return taps.contains(tap) ? List.of(new Part("tube", tap, 5, 60), new Part("switch", tap, 5, 60)) : List.of();
    }

    @Override
    public String needs() {
        return new LeakDown().needs();
    }

    @Override
    public Judgement judge(Map<String, PartReadings> parts, Terms terms) {
        Grade grade = Grade.UNJUDGED;
        List<String> sentences = new ArrayList<>();
        List<Figure> figures = new ArrayList<>();
        List<String> remarks = new ArrayList<>();
        for (String id : List.of("tube", "switch")) {
            PartReadings readings = parts.get(id);
            if (readings == null) {
                grade = grade.worse(Grade.UNDECIDED);
                sentences.add(name(id) + " alone is still to be tested.");
                continue;
            }
            Judgement one = LeakDown.decay(readings, terms);
            grade = grade.worse(one.grade());
            sentences.add(name(id) + " alone: " + one.verdict());
            one.figures()
                    .forEach(f -> figures.add(new Figure(id + "-" + f.id(), f.value(), f.uncertainty(), f.scale())));
            if (one.grade() == Grade.FAULT || one.grade() == Grade.ATTENTION) {
                figures.add(Figure.exact(id + "-leaks", 1, Scale.COUNT));
            }
            if (remarks.isEmpty()) {
                remarks.addAll(
                        one.remarks().subList(0, Math.max(0, one.remarks().size() - 1)));
            }
        }
        return new Judgement(grade, String.join(" ", sentences), figures, remarks);
    }

    private static String name(String id) {
        return id.equals("tube") ? "Tube" : "Switch";
    }
}
