package draftwitness.dashboard;

import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;

/** Turns a contact's columns into stretches of one state. Pure. */
public final class RibbonParts {
    private RibbonParts() {}

    /**
     * A stretch during which a contact kept its state, as far as the columns tell.
     *
     * @param fromNanos start, in session time
     * @param toNanos end
     * @param state what it was
     */
    public record Part(long fromNanos, long toNanos, State state) {}

    /** State of a stretch. */
    public enum State {
        CLOSED,
        OPEN,
        /** Changes within one column: too fast to be drawn apart at this width. */
        BOTH
    }

    /**
     * The stretches, oldest first; times without a known state are left out.
     *
     * @param holdUntilNanos how far the last state is known to hold
     */
    public static List<Part> of(Columns columns, long holdUntilNanos) {
        Collector out = new Collector(columns);
        Sample before = columns.before();
        if (before != null) {
            out.until(before.timeNanos(), before.value());
        }
        for (int i = 0; i < columns.grid().count(); i++) {
            if (columns.count(i) > 0) {
                out.hold(columns.firstTime(i));
                boolean both = (columns.min(i) >= 0.5) != (columns.max(i) >= 0.5);
                State state = both ? State.BOTH : stateOf(columns.last(i));
                out.add(columns.firstTime(i), columns.lastTime(i), state);
                out.until(columns.lastTime(i), columns.last(i));
            }
        }
        Sample after = columns.after();
        out.hold(after != null ? after.timeNanos() : Math.max(holdUntilNanos, out.lastTime));
        return out.parts;
    }

    private static State stateOf(double value) {
        return value >= 0.5 ? State.CLOSED : State.OPEN;
    }

    private static final class Collector {
        private final Columns columns;
        private final List<Part> parts = new ArrayList<>();
        private @Nullable State state;
        private long lastTime;

        Collector(Columns columns) {
            this.columns = columns;
        }

        /** The state read last holds until the next reading, or until it stopped being known. */
        void hold(long nextTime) {
            if (state == null) {
                return;
            }
            long end = nextTime;
            for (TimeSpan gap : columns.gaps()) {
                if (gap.fromNanos() >= lastTime && gap.fromNanos() < nextTime) {
                    end = gap.fromNanos();
                    break;
                }
            }
            add(lastTime, end, state);
        }

        void until(long time, double value) {
            state = stateOf(value);
            lastTime = time;
        }

        void add(long from, long to, State s) {
            Part last = parts.isEmpty() ? null : parts.get(parts.size() - 1);
            if (last != null && last.state() == s && last.toNanos() >= from) {
                parts.set(parts.size() - 1, new Part(last.fromNanos(), Math.max(to, last.toNanos()), s));
            } else if (to > from) {
                parts.add(new Part(from, to, s));
            }
        }
    }
}
