package draftwitness.capture;

import draftwitness.link.ByteLink;
import draftwitness.link.LinkAddress;
import draftwitness.link.LinkException;
import draftwitness.link.LinkNeeds;
import draftwitness.link.LinkOpener;
import draftwitness.reading.Chunk;
import draftwitness.time.Ticker;
import java.util.Optional;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.locks.Condition;
import java.util.concurrent.locks.ReentrantLock;
import org.jspecify.annotations.Nullable;

/**
 * Reads one link for as long as the session lasts, opening it again with growing pauses whenever it is gone. Runs on a
 * thread of its own; {@link #close} comes from another.
 *
 * <p>Its queue is bounded: when the pipeline falls behind, the reader waits, and the bytes wait in the system's
 * buffers.
 */
final class LinkReader implements Runnable, AutoCloseable {
    private static final long FIRST_PAUSE_NANOS = 250_000_000;
    private static final long LONGEST_PAUSE_NANOS = 5_000_000_000L;
    private static final long FULL_WAIT_NANOS = 100_000_000;

    private final int source;
    private LinkAddress address;
    private final LinkNeeds needs;
    private final LinkOpener opener;
    private final Ticker ticker;
    private final FairQueues queues;
    private final ReentrantLock lock = new ReentrantLock();
    private final Condition closing = lock.newCondition();
    private @Nullable ByteLink link;
    private @Nullable Thread reopening;
    private boolean closed;
    private final CountDownLatch tried = new CountDownLatch(1);
    private @Nullable LinkException firstFailure;
    private boolean goOn;

    /** Before the next attempt to open it; the reader's thread alone uses it. */
    private long pause = FIRST_PAUSE_NANOS;

    LinkReader(int source, SourcePlan plan, LinkOpener opener, Ticker ticker, FairQueues queues) {
        this.source = source;
        this.address = plan.watchedAddress();
        this.needs = plan.needs();
        this.opener = opener;
        this.ticker = ticker;
        this.queues = queues;
    }

    /** Whether the first attempt to open it is over. */
    boolean isTried() {
        return tried.getCount() == 0;
    }

    /** Waits until the first attempt is over; false if the time ran out first. */
    boolean awaitTried(long nanos) throws InterruptedException {
        return tried.await(nanos, TimeUnit.NANOSECONDS);
    }

    boolean hasFailed() {
        lock.lock();
        try {
            return firstFailure != null;
        } finally {
            lock.unlock();
        }
    }

    /** Why the first attempt failed; null if it did not, and should it fail from now on, it is tried again. */
    @Nullable
    LinkException failureOrGoOn() {
        lock.lock();
        try {
            goOn |= firstFailure == null;
            return firstFailure;
        } finally {
            lock.unlock();
        }
    }

    /** Opens the link for the first time; false if the reader has nothing left to do. */
    private boolean openFirst() throws InterruptedException {
        LinkException failed;
        try {
            ByteLink opened = openUnlessClosed();
            return opened != null && keep(opened);
        } catch (LinkException e) {
            failed = e;
            if (!mayTryAgain(e)) {
                return false;
            }
        } finally {
            tried.countDown();
        }
        long at = ticker.nanos();
        put(intake -> intake.retrying(source, at, String.valueOf(failed.getMessage())));
        return true;
    }

    private boolean mayTryAgain(LinkException failed) {
        lock.lock();
        try {
            firstFailure = goOn ? null : failed;
            return goOn && !closed;
        } finally {
            lock.unlock();
        }
    }

    @Override
    public void run() {
        try {
            if (!openFirst()) {
                return;
            }
            boolean again = false;
            while (true) {
                ByteLink open = current();
                if (open == null) {
                    open = reopen();
                }
                if (open == null) {
                    return; // closed meanwhile
                }
                ByteLink now = open;
                address = open.returnAddress().orElse(address);
                boolean reopened = again;
                long openedAt = ticker.nanos();
                put(intake -> intake.opened(source, now, openedAt, reopened));
                if (readAll(open)) {
                    return;
                }
                again = true;
            }
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
        }
    }

    /** Reads until the link fails or ends; true if the reader has nothing left to do. */
    private boolean readAll(ByteLink open) throws InterruptedException {
        try {
            while (true) {
                Optional<Chunk> chunk = open.read();
                if (chunk.isEmpty()) {
                    long at = ticker.nanos();
                    put(intake -> intake.finished(source, at));
                    forget(open);
                    return true;
                }
                put(new Incoming.Bytes(source, chunk.get()));
                pause = FIRST_PAUSE_NANOS; // only one that speaks is worth hurrying for
            }
        } catch (LinkException e) {
            forget(open);
            if (isClosed()) {
                return true;
            }
            long at = ticker.nanos();
            put(intake -> intake.gone(source, at, String.valueOf(e.getMessage())));
            return open.isPaced(); // begun anew, a file or simulation would give its readings twice
        }
    }

    private @Nullable ByteLink reopen() throws InterruptedException {
        while (pauseUnlessClosed(pause)) {
            pause = Math.min(2 * pause, LONGEST_PAUSE_NANOS);
            try {
                ByteLink opened = openUnlessClosed();
                if (opened == null || keep(opened)) {
                    return opened;
                }
            } catch (LinkException e) {
                if (isClosed()) {
                    return null;
                }
                long at = ticker.nanos();
                put(intake -> intake.retrying(source, at, String.valueOf(e.getMessage())));
            }
        }
        return null;
    }

    /** Opens, which may take seconds, and which {@link #close} interrupts; null if closed before. */
    private @Nullable ByteLink openUnlessClosed() throws LinkException {
        if (!mayReopen(Thread.currentThread())) {
            return null;
        }
        try {
            return opener.open(address, needs, ticker);
        } catch (RuntimeException e) {
            throw new LinkException(address + ": cannot be opened (" + e + ")", e);
        } finally {
            mayReopen(null);
        }
    }

    private boolean mayReopen(@Nullable Thread thread) {
        lock.lock();
        try {
            reopening = thread;
            return !closed;
        } finally {
            lock.unlock();
        }
    }

    private void put(Incoming incoming) throws InterruptedException {
        boolean in = false;
        while (!in) { // waits when the queue is full; a pipeline that has ended shuts it
            in = queues.offer(source, incoming, FULL_WAIT_NANOS);
        }
    }

    private boolean pauseUnlessClosed(long nanos) throws InterruptedException {
        lock.lock();
        try {
            long left = nanos;
            while (!closed && left > 0) {
                left = closing.awaitNanos(left);
            }
            return !closed;
        } finally {
            lock.unlock();
        }
    }

    private @Nullable ByteLink current() {
        lock.lock();
        try {
            return link;
        } finally {
            lock.unlock();
        }
    }

    private boolean isClosed() {
        lock.lock();
        try {
            return closed;
        } finally {
            lock.unlock();
        }
    }

    private boolean keep(ByteLink opened) {
        lock.lock();
        try {
            if (!closed) {
                link = opened;
                return true;
            }
        } finally {
            lock.unlock();
        }
        opened.close();
        return false;
    }

    private void forget(ByteLink gone) {
        gone.close();
        lock.lock();
        try {
            link = null;
        } finally {
            lock.unlock();
        }
    }

    /** Ends a waiting read or pause; the thread then returns. */
    @Override
    public void close() {
        ByteLink open;
        lock.lock();
        try {
            closed = true;
            closing.signalAll();
            if (reopening != null) {
                reopening.interrupt();
            }
            open = link;
        } finally {
            lock.unlock();
        }
        if (open != null) {
            open.close();
        }
    }
}
