package draftwitness.app;

import draftwitness.bridge.Bridge;
import draftwitness.bridge.BridgeState;
import draftwitness.input.Durations;
import draftwitness.reading.SessionHeader;
import draftwitness.reading.SessionListener;
import draftwitness.reading.Slice;
import java.io.PrintStream;
import java.util.ArrayList;
import java.util.List;

/**
 * Tells in the terminal when a bridge's other side comes or goes, and what was lost. One owner thread, the session's.
 */
public final class BridgeReporter implements SessionListener {
    private final Bridge bridge;
    private final PrintStream out;
    private final List<String> told = new ArrayList<>();

    /**
     * Makes a reporter.
     *
     * @param out where the lines go
     */
    public BridgeReporter(Bridge bridge, PrintStream out) {
        this.bridge = bridge;
        this.out = out;
    }

    @Override
    public void begin(SessionHeader header) {
        told.clear();
    }

    @Override
    public void slice(Slice slice) {
        List<BridgeState> states = bridge.states();
        for (int i = 0; i < states.size(); i++) {
            String words = states.get(i).words();
            if (told.size() <= i) {
                told.add("");
            }
            if (!words.equals(told.get(i))) {
                told.set(i, words);
                out.println(Durations.clock(Math.max(0, slice.endNanos())) + "  bridge: " + words);
            }
        }
    }

    @Override
    public void end() {
        // What is still to be sent is known only when the bridge was closed: see finish().
    }

    /**
     * Tells the figures of a bridge that was closed.
     *
     * @return whether all that it was given went out
     */
    public boolean finish() {
        boolean all = true;
        for (BridgeState s : bridge.states()) {
            out.println("bridge: " + s.confirmed() + " messages sent"
                    + (s.dropped() > 0 ? ", " + s.dropped() + " dropped for want of room" : "")
                    + (s.waiting() > 0 ? ", " + s.waiting() + " never sent (" + s.words() + ")" : ""));
            all &= s.dropped() == 0 && s.waiting() == 0;
        }
        return all;
    }
}
