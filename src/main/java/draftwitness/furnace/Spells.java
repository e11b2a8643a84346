package draftwitness.furnace;

import java.util.ArrayList;
import java.util.List;

/** Notes from when to when something was so. Seconds. Not thread-safe; one owner. */
final class Spells {
    /** One spell. */
    record Spell(double startSeconds, double endSeconds) {}

    private final List<Spell> done = new ArrayList<>();
    private double since = -1;

    void tick(boolean so, double now) {
        if (so && since < 0) {
            since = now;
        } else if (!so && since >= 0) {
            done.add(new Spell(since, now));
            since = -1;
        }
    }

    /** All spells, one that lasts cut at {@code now}. */
    List<Spell> until(double now) {
        List<Spell> all = new ArrayList<>(done);
        if (since >= 0) {
            all.add(new Spell(since, now));
        }
        return all;
    }
}
