package draftwitness.dashboard;

import draftwitness.input.InputException;
import draftwitness.setup.Setup;

/** Setups that tests need. */
public final class MadeSetups {
    private MadeSetups() {}

    /** Ratings that fit {@link FurnaceFeed}. */
    public static Setup usual() {
        try {
            return Setup.parse("test", FurnaceFeed.SETUP);
        } catch (InputException e) {
            throw new IllegalStateException(e);
        }
    }
}
