package draftwitness.dashboard;

import draftwitness.reading.Tap;

/** Taps in plain words. Any thread. */
public final class LaneTitles {
    private LaneTitles() {}

    /** The tap in plain words: {@code Draft at switch}. */
    public static String of(Tap tap) {
        return Words.get("tap." + tap.role());
    }
}
