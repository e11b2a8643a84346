package draftwitness.furnace;

import java.util.ArrayList;
import java.util.List;

/** Groups transitions of a contact into flutter: at least three within 10 s; spans closer than 10 s are one. Pure. */
final class Flutter {
    private static final int FEWEST = 3;
    private static final double WITHIN_SECONDS = 10;

    private Flutter() {}

    /** @param times transitions in seconds, rising */
    static List<Cycle.Span> spans(List<Double> times) {
        List<Cycle.Span> out = new ArrayList<>();
        int from = 0;
        while (from < times.size()) {
            int to = from;
            while (to + 1 < times.size() && times.get(to + 1) - times.get(to) < WITHIN_SECONDS) {
                to++;
            }
            if (dense(times, from, to)) {
                out.add(new Cycle.Span(times.get(from), times.get(to), to - from + 1));
            }
            from = to + 1;
        }
        return out;
    }

    private static boolean dense(List<Double> times, int from, int to) {
        for (int i = from; i + FEWEST - 1 <= to; i++) {
            if (times.get(i + FEWEST - 1) - times.get(i) <= WITHIN_SECONDS) {
                return true;
            }
        }
        return false;
    }
}
