package draftwitness.cycle;

import java.util.ArrayList;
import java.util.List;

/** Groups transitions that follow each other closely. Pure. */
final class Transitions {
    private Transitions() {}

    /** From the first to the last transition of a group. */
    record Group(long startNanos, long endNanos, int transitions) {}

    /**
     * Groups with enough transitions within a time; groups closer than that are one.
     *
     * @param times rising
     */
    static List<Group> groups(long[] times, int fewest, long withinNanos) {
        List<long[]> spans = new ArrayList<>();
        for (int i = 0; i + fewest <= times.length; i++) {
            long from = times[i];
            long to = times[i + fewest - 1];
            if (to - from > withinNanos) {
                continue;
            }
            int last = spans.size() - 1;
            if (last >= 0 && from - spans.get(last)[1] < withinNanos) {
                spans.get(last)[1] = to;
            } else {
                spans.add(new long[] {from, to});
            }
        }
        List<Group> out = new ArrayList<>();
        for (long[] span : spans) {
            int inside = 0;
            for (long t : times) {
                inside += t >= span[0] && t <= span[1] ? 1 : 0;
            }
            out.add(new Group(span[0], span[1], inside));
        }
        return out;
    }
}
