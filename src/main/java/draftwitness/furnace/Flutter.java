package draftwitness.furnace;

import java.util.ArrayList;
import java.util.List;

/** Groups transitions of a contact into flutter: at least three within 10 s; spans closer than 10 s are one. Pure. */
final class Flutter {
    private static final int FEWEST = 3;
    private static final double WITHIN_SECONDS = 10;

    private Flutter() {}

    /**
     * Finds them.
     *
     * @param times transitions in seconds, rising
     */
    static List<Cycle.Span> spans(List<Double> times) {
        List<Cycle.Span> out = new ArrayList<>();
        double start = Double.NaN;
        double end = Double.NaN;
        for (int i = 0; i + FEWEST <= times.size(); i++) {
            double from = times.get(i);
            double to = times.get(i + FEWEST - 1);
            if (to - from > WITHIN_SECONDS) {
                continue;
            }
            if (from - end < WITHIN_SECONDS) {
                end = to;
            } else {
                add(out, times, start, end);
                start = from;
                end = to;
            }
        }
        add(out, times, start, end);
        return out;
    }

    private static void add(List<Cycle.Span> out, List<Double> times, double start, double end) {
        int inside = (int) times.stream().filter(t -> t >= start && t <= end).count();
        if (inside > 0) {
            out.add(new Cycle.Span(start, end, inside));
        }
    }
}
