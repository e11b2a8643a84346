package draftwitness.capture;

import draftwitness.reading.Block;
import draftwitness.reading.Channel;
import draftwitness.reading.Quantity;
import draftwitness.reading.Slice;
import draftwitness.reading.Tap;
import draftwitness.reading.ZeroControl;
import draftwitness.reading.ZeroOffset;
import draftwitness.reading.Zeros;
import java.util.ArrayList;
import java.util.EnumMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import org.jspecify.annotations.Nullable;

/**
 * Takes the zeros that are asked for out of a session's slices. The pipeline brings slices and gets the offsets to pass
 * on; the commands come from any thread.
 */
final class GuidedZero implements ZeroControl {
    private static final Status NOTHING = new Status(State.NONE, 0, "", 0);

    /** What was asked for a tap and has not been seen to. */
    private enum Wish {
        START,
        CANCEL,
        UNDO
    }

    /** One tap. */
    private static final class Task {
        private @Nullable Wish wish;
        private @Nullable ZeroCheck check;
        private long startNanos;
        private Status status = NOTHING;

        void tell(State state, String words) {
            status = new Status(state, state == State.TAKING ? 0 : 1, words, status.pascals());
        }
    }

    private final List<Tap> taps;
    private final Map<Tap, Task> tasks = new EnumMap<>(Tap.class);
    private boolean ended;

    GuidedZero(List<Channel> channels) {
        this.taps = channels.stream()
                .map(Channel::tap)
                .filter(t -> t.quantity() == Quantity.PRESSURE)
                .toList();
        taps.forEach(t -> tasks.put(t, new Task()));
    }

    @Override
    public List<Tap> taps() {
        return taps;
    }

    @Override
    public void start(Tap tap) {
        wish(tap, Wish.START);
    }

    @Override
    public void cancel(Tap tap) {
        wish(tap, Wish.CANCEL);
    }

    @Override
    public void undo(Tap tap) {
        wish(tap, Wish.UNDO);
    }

    private synchronized void wish(Tap tap, Wish wish) {
        Task task = tasks.get(tap);
        if (task == null) {
            throw new IllegalArgumentException(tap.role() + " is no pressure tap of this session");
        }
        if (ended) {
            task.tell(State.REFUSED, "the session has come to its end");
            return;
        }
        task.wish = wish;
        if (wish == Wish.START) {
            task.check = null;
            task.tell(State.TAKING, "");
        }
    }

    @Override
    public synchronized Status status(Tap tap) {
        Task task = tasks.get(tap);
        return task == null ? NOTHING : task.status;
    }

    /**
     * Sees to what was asked, and takes readings.
     *
     * @param slice with readings as they came
     * @param zeros what is in force, this slice's events taken
     * @return offsets to pass on, to hold from the slice's end
     */
    synchronized List<ZeroOffset> slice(Slice slice, Zeros zeros) {
        List<ZeroOffset> found = new ArrayList<>();
        for (Tap tap : taps) {
            Task task = tasks.get(tap);
            if (task != null) {
                noteInForce(task, zeros.pascals(tap));
                grant(tap, task, slice.endNanos(), zeros, found);
                take(tap, task, slice, found);
            }
        }
        return found;
    }

    private static void noteInForce(Task task, double pascals) {
        Status s = task.status;
        if (s.pascals() != pascals) {
            task.status = new Status(s.state(), s.fraction(), s.words(), pascals);
        }
    }

    private static void grant(Tap tap, Task task, long nowNanos, Zeros zeros, List<ZeroOffset> found) {
        Wish wish = task.wish;
        task.wish = null;
        if (wish == Wish.START) {
            task.check = new ZeroCheck(tap, nowNanos);
            task.startNanos = nowNanos;
        } else if (wish == Wish.CANCEL && task.check != null) {
            task.check = null;
            task.tell(State.NONE, "");
        } else if (wish == Wish.UNDO && zeros.pascals(tap) != 0) {
            task.check = null;
            found.add(zeros.undo(tap, nowNanos));
            task.tell(State.UNDONE, "the zero was taken back");
        }
    }

    private static void take(Tap tap, Task task, Slice slice, List<ZeroOffset> found) {
        ZeroCheck check = task.check;
        if (check == null) {
            return;
        }
        for (Block block : slice.blocks()) {
            for (int i = 0; block.channel().tap() == tap && i < block.size(); i++) {
                check.add(block.timeNanos(i), block.value(i));
            }
        }
        if (!check.isOver(slice.endNanos())) {
            double fraction = (double) (slice.endNanos() - task.startNanos) / ZeroCheck.LENGTH_NANOS;
            task.status = new Status(State.TAKING, fraction, "", task.status.pascals());
            return;
        }
        task.check = null;
        ZeroCheck.Result result = check.judge();
        result.zero().ifPresent(found::add);
        task.tell(
                result.zero().isPresent() ? State.TAKEN : State.REFUSED,
                result.zero().map(GuidedZero::words).orElse(result.why()));
    }

    private static String words(ZeroOffset zero) {
        return String.format(
                Locale.ROOT,
                "zero %.2f Pa (spread %.2f Pa, %d readings)",
                zero.pascals(),
                zero.spreadPascals(),
                zero.readings());
    }

    /** No slice follows. */
    synchronized void end() {
        ended = true;
        for (Task task : tasks.values()) {
            if (task.status.state() == State.TAKING) {
                task.check = null;
                task.tell(State.REFUSED, "the session came to its end before it was taken");
            }
        }
    }
}
