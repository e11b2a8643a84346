package draftwitness.app;

import java.util.concurrent.Executor;
import java.util.concurrent.atomic.AtomicBoolean;

/**
 * Work in the background that is asked for often and must not pile up: while it runs, asking does nothing. Any thread
 * asks.
 */
final class OneAtATime {
    private final Executor background;
    private final Runnable work;
    private final AtomicBoolean running = new AtomicBoolean();

    OneAtATime(Executor background, Runnable work) {
        this.background = background;
        this.work = work;
    }

    /** Has the work done, unless it is being done. */
    void ask() {
        if (running.compareAndSet(false, true)) {
            background.execute(() -> {
                try {
                    work.run();
                } finally {
                    running.set(false);
                }
            });
        }
    }
}
