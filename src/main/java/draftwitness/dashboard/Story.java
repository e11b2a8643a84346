package draftwitness.dashboard;

import draftwitness.cycle.LiveReport;
import draftwitness.cycle.LiveSnapshot;
import draftwitness.setup.Setup;

/**
 * What the furnace did in a session, as far as that is known; the program behind the window fills this in. Asked on the
 * user-interface thread at screen rate, so it never waits.
 */
public interface Story {

    /** The newest state. Its number grows with news; the same number means the same snapshot. */
    LiveSnapshot snapshot();

    /** Nothing is known, and nothing will be. */
    static Story none() {
        LiveSnapshot nothing = new LiveReport(Setup.defaults()).snapshot();
        return () -> nothing;
    }
}
