package draftwitness.app.cli;

import draftwitness.recording.Progress;
import java.io.PrintStream;

/** Tells progress in steps of ten percent, and nothing for work that is over at once. */
final class TerminalProgress implements Progress {
    private static final int STEP = 10;

    private final String what;
    private final PrintStream err;
    private int told;

    TerminalProgress(String what, PrintStream err) {
        this.what = what;
        this.err = err;
    }

    @Override
    public boolean goOn(double fraction) {
        int percent = (int) (fraction * 100);
        if (percent >= told + STEP && percent < 100) {
            told = percent / STEP * STEP;
            err.println(what + ": " + told + " %");
        }
        return true;
    }
}
