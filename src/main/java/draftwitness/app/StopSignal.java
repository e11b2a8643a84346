package draftwitness.app;

import java.util.concurrent.CountDownLatch;
import java.util.concurrent.TimeUnit;

/**
 * Turns Ctrl-C and SIGTERM into a request to stop in good order: the work ends, what was recorded is closed, and the
 * program leaves with the work's own exit code.
 *
 * <p>{@link #await} and {@link #finished} come from the main thread; the signal comes from the machine's own.
 */
public final class StopSignal implements AutoCloseable {
    private static final long LONGEST_STOP_SECONDS = 30;

    private final CountDownLatch asked = new CountDownLatch(1);
    private final CountDownLatch done = new CountDownLatch(1);
    private final Thread hook = new Thread(this::stopInGoodOrder, "stop-signal");
    private volatile int exitCode;

    /** Listens from now on. */
    public StopSignal() {
        Runtime.getRuntime().addShutdownHook(hook);
    }

    private void stopInGoodOrder() {
        asked.countDown();
        try {
            if (done.await(LONGEST_STOP_SECONDS, TimeUnit.SECONDS)) {
                Runtime.getRuntime().halt(exitCode); // else the exit code would be that of the signal
            }
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
        }
    }

    /** Asks the work to stop, as the signal does. */
    public void ask() {
        asked.countDown();
    }

    /** Waits for the signal; true if it came, false after the given time. */
    public boolean await(long timeout, TimeUnit unit) throws InterruptedException {
        return asked.await(timeout, unit);
    }

    /** The work has ended in good order with this exit code. */
    public void finished(int code) {
        exitCode = code;
        done.countDown();
    }

    /** Listens no longer. */
    @Override
    public void close() {
        done.countDown();
        try {
            Runtime.getRuntime().removeShutdownHook(hook);
        } catch (IllegalStateException e) {
            // The program is shutting down: the hook runs and finds the work done.
            return;
        }
    }
}
