package draftwitness.app;

import java.util.concurrent.CountDownLatch;
import java.util.concurrent.TimeUnit;

/**
 * Turns Ctrl-C and SIGTERM into a request to stop in good order, for commands that {@link #attend} to it: the work
 * ends, what was recorded is closed, what there is to say is said, and the program leaves with the work's own exit
 * code. A command that does not attend is simply ended.
 *
 * <p>One for each run of the program. {@link #await} and {@link #finished} come from the main thread; the signal comes
 * from the machine's own.
 */
public final class StopSignal implements AutoCloseable {
    private static final long LONGEST_STOP_SECONDS = 90;

    private final CountDownLatch asked = new CountDownLatch(1);
    private final CountDownLatch done = new CountDownLatch(1);
    private final Thread hook = new Thread(this::stopInGoodOrder, "stop-signal");
    private volatile boolean attended;
    private volatile int exitCode = 1;

    /** Listens from now on. */
    public StopSignal() {
        Runtime.getRuntime().addShutdownHook(hook);
    }

    private void stopInGoodOrder() {
        asked.countDown();
        if (!attended) {
            return;
        }
        try {
            if (done.await(LONGEST_STOP_SECONDS, TimeUnit.SECONDS)) {
                Runtime.getRuntime().halt(exitCode); // else the exit code would be that of the signal
            }
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
        }
    }

    /** From now on the work looks at the signal, and will end in good order when it comes. */
    public void attend() {
        attended = true;
    }

    /** Waits for the signal; true if it came, false after the given time. */
    public boolean await(long timeout, TimeUnit unit) throws InterruptedException {
        return asked.await(timeout, unit);
    }

    /** Waits until all is done and said, for as long as the machine gives. */
    void awaitFinished() {
        try {
            boolean unused = done.await(LONGEST_STOP_SECONDS, TimeUnit.SECONDS);
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
        }
    }

    /** All is done and said; this is the exit code. */
    public void finished(int code) {
        exitCode = code;
        done.countDown();
    }

    /** Listens no longer. */
    @Override
    public void close() {
        try {
            Runtime.getRuntime().removeShutdownHook(hook);
        } catch (IllegalStateException e) {
            // The program is shutting down: the hook runs, and leaves once finished() was called.
            return;
        }
    }
}
