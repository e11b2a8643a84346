package draftwitness.app.cli;

import draftwitness.recording.Progress;
import java.util.concurrent.TimeUnit;

/**
 * Tells progress in steps of ten percent, and nothing for work that is over at once. Ctrl-C and SIGTERM stop the work,
 * which then leaves nothing half-written behind.
 */
final class TerminalProgress implements Progress {
    private static final int STEP = 10;

    private final String what;
    private final Console console;
    private int told;

    TerminalProgress(String what, Console console) {
        this.what = what;
        this.console = console;
        console.stop().attend();
    }

    @Override
    public boolean goOn(double fraction) {
        int percent = (int) (fraction * 100);
        if (percent >= told + STEP && percent < 100) {
            told = percent / STEP * STEP;
            console.err().println(what + ": " + told + " %");
        }
        try {
            return !console.stop().await(0, TimeUnit.MILLISECONDS);
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
            return false;
        }
    }
}
