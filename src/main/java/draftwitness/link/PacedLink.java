package draftwitness.link;

import draftwitness.reading.Chunk;
import draftwitness.time.Ticker;
import java.util.Optional;
import java.util.concurrent.locks.Condition;
import java.util.concurrent.locks.ReentrantLock;

/**
 * Plays a {@link Feed} by the session's clock: each chunk comes out when its time has come, stamped with exactly that
 * time, so that the same feed gives the same session however busy the machine is.
 */
public final class PacedLink implements ByteLink {
    private final String name;
    private final Feed feed;
    private final Ticker ticker;
    private final ReentrantLock lock = new ReentrantLock();
    private final Condition closing = lock.newCondition();
    private boolean closed;

    /**
     * Starts to play.
     *
     * @param name for messages
     * @param ticker the session's clock; 0 is the session's start
     */
    public PacedLink(String name, Feed feed, Ticker ticker) {
        this.name = name;
        this.feed = feed;
        this.ticker = ticker;
    }

    @Override
    public Optional<Chunk> read() throws LinkException {
        Optional<Chunk> next = feed.next();
        if (next.isPresent()) {
            awaitTime(next.get().arrivalNanos());
        }
        return next;
    }

    private void awaitTime(long dueNanos) throws LinkException {
        lock.lock();
        try {
            long left = dueNanos - ticker.nanos();
            while (left > 0 && !closed) {
                long unused = closing.awaitNanos(ticker.realNanos(left));
                left = dueNanos - ticker.nanos();
            }
            if (closed) {
                throw new LinkException(name + ": closed");
            }
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
            throw new LinkException(name + ": interrupted", e);
        } finally {
            lock.unlock();
        }
    }

    @Override
    public void write(byte[] bytes) throws LinkException {
        throw new LinkException(name + ": cannot be asked anything");
    }

    @Override
    public boolean isPaced() {
        return true;
    }

    @Override
    public void close() {
        lock.lock();
        try {
            if (!closed) {
                closed = true;
                closing.signalAll();
                feed.close();
            }
        } finally {
            lock.unlock();
        }
    }
}
