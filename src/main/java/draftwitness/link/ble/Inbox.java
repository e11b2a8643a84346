package draftwitness.link.ble;

import draftwitness.reading.Chunk;
import draftwitness.time.Ticker;
import java.util.ArrayDeque;
import java.util.Deque;
import java.util.concurrent.locks.Condition;
import java.util.concurrent.locks.ReentrantLock;
import org.jspecify.annotations.Nullable;

/**
 * Values on their way from D-Bus's thread to the link's reader, stamped on arrival. Any thread puts in; one takes out.
 *
 * <p>Holds {@value #CAPACITY} values; more are counted and lost, and the reader is told, for D-Bus's thread must never
 * wait.
 */
final class Inbox {
    static final int CAPACITY = 4096;

    private final Ticker ticker;
    private final ReentrantLock lock = new ReentrantLock();
    private final Condition something = lock.newCondition();
    private final Deque<Chunk> chunks = new ArrayDeque<>();
    private long lost;
    private boolean nudged;
    private boolean closed;

    Inbox(Ticker ticker) {
        this.ticker = ticker;
    }

    /** Stamps a value and puts it in. Stamping and queuing are one step, so that chunks come out in order of time. */
    void put(String endpoint, byte[] value) {
        lock.lock();
        try {
            if (chunks.size() < CAPACITY) {
                chunks.add(new Chunk(value, 0, value.length, ticker.nanos(), endpoint));
            } else {
                lost++;
            }
            something.signalAll();
        } finally {
            lock.unlock();
        }
    }

    /** Wakes the reader, so that it looks whether the device is still there. */
    void nudge() {
        lock.lock();
        try {
            nudged = true;
            something.signalAll();
        } finally {
            lock.unlock();
        }
    }

    /** Ends all waiting; what is still inside is dropped. */
    void close() {
        lock.lock();
        try {
            closed = true;
            chunks.clear();
            something.signalAll();
        } finally {
            lock.unlock();
        }
    }

    boolean isClosed() {
        lock.lock();
        try {
            return closed;
        } finally {
            lock.unlock();
        }
    }

    /** Values that found no room. */
    long lost() {
        lock.lock();
        try {
            return lost;
        } finally {
            lock.unlock();
        }
    }

    /** True once after each nudge. */
    boolean takeNudge() {
        lock.lock();
        try {
            boolean was = nudged;
            nudged = false;
            return was;
        } finally {
            lock.unlock();
        }
    }

    /**
     * Waits for a nudge, while no value can come yet.
     *
     * @throws BleException if it was closed or the thread interrupted
     */
    void awaitNudge(long realNanos) throws BleException {
        lock.lock();
        try {
            long left = realNanos;
            while (!nudged && !closed && left > 0) {
                left = something.awaitNanos(left);
            }
            nudged = false;
            if (closed) {
                throw new BleException("closed");
            }
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
            throw new BleException("interrupted", e);
        } finally {
            lock.unlock();
        }
    }

    /** The next value; null when it was nudged, closed or the time ran out first. */
    @Nullable
    Chunk await(long realNanos) throws InterruptedException {
        lock.lock();
        try {
            long left = realNanos;
            while (chunks.isEmpty() && !nudged && !closed && left > 0) {
                left = something.awaitNanos(left);
            }
            return chunks.poll();
        } finally {
            lock.unlock();
        }
    }
}
