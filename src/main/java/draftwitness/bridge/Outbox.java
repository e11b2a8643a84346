package draftwitness.bridge;

import java.util.ArrayDeque;
import java.util.Deque;
import java.util.Optional;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.locks.Condition;
import java.util.concurrent.locks.ReentrantLock;

/**
 * What waits to be sent: bounded, never makes the giver wait. When it is full the oldest readings are dropped and
 * counted; what tells of cycles and episodes is dropped only when there are no readings left to drop. Any thread.
 */
final class Outbox {
    private final long capacityBytes;
    private final ReentrantLock lock = new ReentrantLock();
    private final Condition news = lock.newCondition();
    // Guarded by the lock:
    private final Deque<Waiting> readings = new ArrayDeque<>();
    private final Deque<Waiting> others = new ArrayDeque<>();
    private long bytes;
    private long given;
    private long dropped;

    /** A message and its place in the order in which all were given. */
    private record Waiting(long number, Message message) {}

    /**
     * An empty one.
     *
     * @param capacityBytes most bytes of waiting messages, above 0
     */
    Outbox(long capacityBytes) {
        if (capacityBytes <= 0) {
            throw new IllegalArgumentException("room for " + capacityBytes + " bytes");
        }
        this.capacityBytes = capacityBytes;
    }

    /** Adds a message at the end; what is oldest goes if there is no room. */
    void add(Message message) {
        lock.lock();
        try {
            (message.kind() == Message.Kind.READINGS ? readings : others).add(new Waiting(given++, message));
            bytes += message.weight();
            while (bytes > capacityBytes && readings.size() + others.size() > 1) {
                dropOldest();
            }
            news.signalAll();
        } finally {
            lock.unlock();
        }
    }

    private void dropOldest() {
        bytes -= (readings.isEmpty() ? others : readings).remove().message().weight();
        dropped++;
    }

    /** Takes the oldest message; waits for one so long at most. */
    Optional<Message> poll(long timeout, TimeUnit unit) throws InterruptedException {
        lock.lockInterruptibly();
        try {
            long left = unit.toNanos(timeout);
            while (readings.isEmpty() && others.isEmpty()) {
                if (left <= 0) {
                    return Optional.empty();
                }
                left = news.awaitNanos(left);
            }
            return Optional.of(takeOldest());
        } finally {
            lock.unlock();
        }
    }

    private Message takeOldest() {
        boolean fromOthers = readings.isEmpty()
                || (!others.isEmpty()
                        && others.element().number() < readings.element().number());
        Message message = (fromOthers ? others : readings).remove().message();
        bytes -= message.weight();
        return message;
    }

    /** How many messages were dropped so far for want of room. */
    long dropped() {
        lock.lock();
        try {
            return dropped;
        } finally {
            lock.unlock();
        }
    }

    /** How many messages wait. */
    int size() {
        lock.lock();
        try {
            return readings.size() + others.size();
        } finally {
            lock.unlock();
        }
    }
}
