package draftwitness.capture;

import draftwitness.link.ByteLink;
import draftwitness.link.LinkException;
import draftwitness.time.Ticker;
import java.util.concurrent.ArrayBlockingQueue;
import java.util.concurrent.BlockingQueue;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.atomic.AtomicReference;
import org.jspecify.annotations.Nullable;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/**
 * Sends one source's requests on a thread of its own, since a write to an instrument that does not read may never
 * return. Everything but the writing itself is called by the pipeline's thread.
 */
final class LinkWriter implements AutoCloseable {
    /** A write that takes longer than this will not end by itself: at 9600 baud it is time for 1900 bytes. */
    static final long LIMIT_NANOS = 2_000_000_000L;

    private static final long IDLE = Long.MIN_VALUE;
    private static final long JOIN_SECONDS = 2;
    private static final Logger LOG = LoggerFactory.getLogger(LinkWriter.class);

    private final String id;
    private final Ticker ticker;
    private final BlockingQueue<Runnable> queue = new ArrayBlockingQueue<>(1);
    private final AtomicReference<@Nullable String> failure = new AtomicReference<>();
    private volatile long busySinceNanos = IDLE;
    private @Nullable Thread thread;

    LinkWriter(String id, Ticker ticker) {
        this.id = id;
        this.ticker = ticker;
    }

    /** Sends bytes soon; false, and nothing is sent, while the ones before are still on their way. */
    boolean send(ByteLink link, byte[] bytes) {
        if (busySinceNanos != IDLE) {
            return false;
        }
        if (thread == null) {
            thread = start("write-" + id, this::work);
        }
        busySinceNanos = ticker.nanos();
        return queue.offer(() -> write(link, bytes));
    }

    /** Whether a write has been going on for too long. */
    boolean isStuck(long nowNanos) {
        long since = busySinceNanos;
        return since != IDLE && nowNanos - since > LIMIT_NANOS;
    }

    /** Why the last write failed, once; null if it did not. */
    @Nullable
    String takeFailure() {
        return failure.getAndSet(null);
    }

    /** Closes a link whose write is stuck, on a thread of its own: closing might wait for the write. */
    static void closeStuck(String id, ByteLink link) {
        Thread unused = start("close-" + id, link::close);
    }

    private static Thread start(String name, Runnable work) {
        Thread started = new Thread(work, name);
        started.setDaemon(true);
        started.setUncaughtExceptionHandler((t, e) -> LOG.error("{} failed", t.getName(), e));
        started.start();
        return started;
    }

    private void work() {
        try {
            while (true) {
                queue.take().run();
                busySinceNanos = IDLE;
            }
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt(); // the session is over
        }
    }

    private void write(ByteLink link, byte[] bytes) {
        try {
            link.write(bytes);
        } catch (LinkException e) {
            failure.set(String.valueOf(e.getMessage()));
            link.close(); // the reader notices, and opens it again
        }
    }

    /** Ends the thread once its write has ended; waits for that a little. */
    @Override
    public void close() {
        Thread running = thread;
        if (running != null) {
            running.interrupt();
            try {
                running.join(TimeUnit.SECONDS.toMillis(JOIN_SECONDS));
            } catch (InterruptedException e) {
                Thread.currentThread().interrupt();
            }
        }
    }

    /** Ends the thread whenever its write ends, without waiting. */
    void abandon() {
        if (thread != null) {
            thread.interrupt();
        }
    }
}
