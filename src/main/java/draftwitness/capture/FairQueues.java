package draftwitness.capture;

import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.List;
import java.util.Queue;
import java.util.concurrent.locks.Condition;
import java.util.concurrent.locks.ReentrantLock;
import org.jspecify.annotations.Nullable;

/**
 * What the links' readers have for the pipeline: a bounded queue for each source, so that one that floods fills its own
 * only. Any number of threads offer, each for its own source; one takes.
 *
 * <p>A queue is full at {@value #MOST_ITEMS} items or {@value #MOST_BYTES} bytes; then its reader waits, and the bytes
 * wait in the system's buffers. Nothing is dropped here.
 */
final class FairQueues {
    static final int MOST_ITEMS = 1024;
    static final int MOST_BYTES = 1 << 16;

    private final ReentrantLock lock = new ReentrantLock();
    private final Condition arrived = lock.newCondition();
    private final List<Lane> lanes = new ArrayList<>();
    private boolean news;
    private boolean shut;

    /** One source's queue. */
    private final class Lane {
        private final Queue<Incoming> items = new ArrayDeque<>();
        private final Condition room = lock.newCondition();
        private int bytes;

        private boolean isFull() {
            return items.size() >= MOST_ITEMS || bytes >= MOST_BYTES;
        }
    }

    FairQueues(int sources) {
        for (int i = 0; i < sources; i++) {
            lanes.add(new Lane());
        }
    }

    /** Puts an item into a source's queue; false if there was no room for so long. */
    boolean offer(int source, Incoming item, long waitNanos) throws InterruptedException {
        lock.lockInterruptibly();
        try {
            Lane lane = lanes.get(source);
            long left = waitNanos;
            while (lane.isFull() && !shut) {
                if (left <= 0) {
                    return false;
                }
                left = lane.room.awaitNanos(left);
            }
            if (shut) {
                return true;
            }
            lane.items.add(item);
            lane.bytes += item.bytes();
            news = true;
            arrived.signal();
            return true;
        } finally {
            lock.unlock();
        }
    }

    /** Waits until something was put in since the last time, at most so long. */
    void awaitNews(long waitNanos) throws InterruptedException {
        lock.lockInterruptibly();
        try {
            long left = waitNanos;
            while (!news && left > 0) {
                left = arrived.awaitNanos(left);
            }
            news = false;
        } finally {
            lock.unlock();
        }
    }

    /** Takes a source's next item, or null if there is none. */
    @Nullable
    Incoming poll(int source) {
        lock.lock();
        try {
            Lane lane = lanes.get(source);
            Incoming item = lane.items.poll();
            if (item != null) {
                lane.bytes -= item.bytes();
                lane.room.signal();
            }
            return item;
        } finally {
            lock.unlock();
        }
    }

    /** Nobody takes any more: what is offered from now on is let go, so that no reader waits for ever. */
    void shut() {
        lock.lock();
        try {
            shut = true;
            lanes.forEach(lane -> lane.room.signalAll());
        } finally {
            lock.unlock();
        }
    }
}
