package draftwitness.app;

import draftwitness.reading.SessionHeader;
import draftwitness.reading.SessionListener;
import draftwitness.reading.Slice;
import draftwitness.reading.Tap;
import draftwitness.reading.ZeroControl;
import java.io.PrintStream;
import java.util.EnumMap;
import java.util.EnumSet;
import java.util.Map;
import java.util.Set;
import org.jspecify.annotations.Nullable;

/**
 * Takes the zeros of all pressure taps of a session once it has begun, and tells in the terminal how that went. Each
 * tap begins with its first reading and has three tries. Called on the session's thread.
 */
public final class ZeroFirst implements SessionListener {
    private static final int TRIES = 3;

    private final PrintStream out;
    private final Set<Tap> left = EnumSet.noneOf(Tap.class);
    private final Set<Tap> taking = EnumSet.noneOf(Tap.class);
    private final Map<Tap, Integer> tries = new EnumMap<>(Tap.class);
    private @Nullable ZeroControl control;

    /**
     * Makes one; {@link #of} must follow before the session starts.
     *
     * @param out where the lines go
     */
    public ZeroFirst(PrintStream out) {
        this.out = out;
    }

    /** Says whose zeros are taken. */
    public void of(ZeroControl zeros) {
        control = zeros;
        left.addAll(zeros.taps());
    }

    @Override
    public void begin(SessionHeader header) {
        out.println("zero first: leave both ports of every instrument open to air for 5 s, furnace off");
    }

    @Override
    public void slice(Slice slice) {
        ZeroControl zeros = control;
        if (zeros == null || left.isEmpty()) {
            return;
        }
        slice.blocks().stream()
                .map(b -> b.channel().tap())
                .filter(t -> left.contains(t) && taking.add(t))
                .forEach(zeros::start);
        for (Tap tap : EnumSet.copyOf(taking)) {
            look(tap, zeros.status(tap), zeros);
        }
        if (left.isEmpty()) {
            out.println("zero first: done; connect the hoses now");
        }
    }

    private void look(Tap tap, ZeroControl.Status status, ZeroControl zeros) {
        boolean taken = status.state() == ZeroControl.State.TAKEN;
        if (!taken && status.state() != ZeroControl.State.REFUSED) {
            return;
        }
        boolean again = !taken && tries.merge(tap, 1, Integer::sum) < TRIES;
        out.println(tap.role() + ": " + status.words()
                + (taken ? ", taken off from now on" : again ? "; once more" : "; readings stay as they come"));
        if (again) {
            zeros.start(tap);
        } else {
            taking.remove(tap);
            left.remove(tap);
        }
    }

    @Override
    public void end() {
        left.forEach(t -> out.println(t.role() + ": no zero was taken; its readings are as they came"));
        left.clear();
    }
}
