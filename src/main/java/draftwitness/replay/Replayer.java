package draftwitness.replay;

import draftwitness.reading.SessionListener;
import draftwitness.reading.Slice;
import draftwitness.reading.Zeros;
import draftwitness.recording.RecordingException;
import draftwitness.recording.RecordingFile;
import draftwitness.recording.SliceCursor;
import draftwitness.time.Ticker;
import java.util.List;
import java.util.OptionalLong;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.locks.Condition;
import java.util.concurrent.locks.ReentrantLock;
import org.jspecify.annotations.Nullable;

/**
 * Plays a recording to listeners.
 *
 * <p>The thread {@code replay} reads the file and calls the listeners; the commands come from any thread. It begins
 * paused. A seek begins the session anew for the listeners, from the cell sought; at the end it waits, paused, for
 * another seek until closed.
 */
public final class Replayer implements AutoCloseable {
    private static final long JOIN_MILLIS = 10_000;

    private final RecordingFile file;
    private final Ticker ticker;
    private final List<SessionListener> listeners;
    private final Thread thread = new Thread(this::run, "replay");
    private final CountDownLatch endSeen = new CountDownLatch(1);
    private final ReentrantLock lock = new ReentrantLock();
    private final Condition changed = lock.newCondition();
    // Guarded by the lock:
    private boolean playing;
    private boolean closed;
    private double speed = 1;
    private @Nullable Long seekTo;
    private long anchorTicker;
    private long anchorSession;
    private long position;
    private @Nullable String trouble;

    /**
     * Prepares a replay of the whole recording.
     *
     * @param file stays the caller's to close, after this
     * @param listeners called in this order
     */
    public Replayer(RecordingFile file, Ticker ticker, List<SessionListener> listeners) throws RecordingException {
        this.file = file;
        this.ticker = ticker;
        this.listeners = List.copyOf(listeners);
        OptionalLong firstCell = file.firstCell();
        this.position = firstCell.orElse(0) * Slice.CELL_NANOS;
        this.anchorSession = position;
        this.seekTo = position;
        thread.setDaemon(true);
    }

    /** Starts the thread; nothing is played before {@link #play}. */
    public void start() {
        thread.start();
    }

    /** Goes on from the present position. */
    public void play() {
        change(() -> playing = true);
    }

    /** Holds the present position. */
    public void pause() {
        change(() -> playing = false);
    }

    /**
     * Sets how fast session time goes by.
     *
     * @param times above 0; {@link Double#POSITIVE_INFINITY} for as fast as the listeners take it
     */
    public void speed(double times) {
        if (!(times > 0)) {
            throw new IllegalArgumentException("speed " + times + " is not positive");
        }
        change(() -> speed = times);
    }

    /** Goes to the cell that holds a session time; before the first or after the last it stops there. */
    public void seek(long sessionNanos) {
        change(() -> seekTo = sessionNanos);
    }

    /** Session time up to which slices have been handed on. */
    public long positionNanos() {
        lock.lock();
        try {
            return position;
        } finally {
            lock.unlock();
        }
    }

    /** What went wrong reading the file, if anything did: one line. */
    public @Nullable String trouble() {
        lock.lock();
        try {
            return trouble;
        } finally {
            lock.unlock();
        }
    }

    /** Waits until the end was reached for the first time, or trouble met; false if the time ran out first. */
    public boolean awaitEnd(long timeout, TimeUnit unit) throws InterruptedException {
        return endSeen.await(timeout, unit);
    }

    /** Ends the replay; the listeners are told that nothing follows. */
    @Override
    public void close() {
        change(() -> closed = true);
        try {
            thread.join(JOIN_MILLIS);
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
        }
    }

    private void change(Runnable what) {
        lock.lock();
        try {
            what.run();
            anchorTicker = ticker.nanos();
            anchorSession = position;
            changed.signalAll();
        } finally {
            lock.unlock();
        }
    }

    private void run() {
        boolean begun = false;
        try {
            SliceCursor cursor = null;
            Zeros zeros = file.zeros();
            while (true) {
                Long target = takeSeek();
                if (target != null) {
                    cursor = open(target);
                    listeners.forEach(l -> l.begin(file.header()));
                    begun = true;
                }
                Slice next = cursor == null ? null : cursor.next();
                if (next == null) {
                    endSeen.countDown();
                    cursor = null;
                }
                if (!awaitTurn(next)) {
                    return; // closed
                }
                if (next != null && !seekWaits()) {
                    zeros.slice(next);
                    Slice zeroed = zeros.zeroed(next);
                    listeners.forEach(l -> l.slice(l.takesRaw() ? next : zeroed));
                    passed(next);
                }
            }
        } catch (RecordingException e) {
            report(String.valueOf(e.getMessage()));
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
        } finally {
            if (begun) {
                listeners.forEach(SessionListener::end);
            }
            endSeen.countDown();
        }
    }

    private SliceCursor open(long target) throws RecordingException {
        long first = file.firstCell().orElse(0);
        long last = Math.max(first, file.endCell().orElse(first));
        long cell = Math.max(first, Math.min(Slice.indexOf(target), last));
        lock.lock();
        try {
            position = cell * Slice.CELL_NANOS;
            anchorTicker = ticker.nanos();
            anchorSession = position;
        } finally {
            lock.unlock();
        }
        return file.slices(cell * Slice.CELL_NANOS, Long.MAX_VALUE);
    }

    private @Nullable Long takeSeek() {
        lock.lock();
        try {
            Long target = seekTo;
            seekTo = null;
            return target;
        } finally {
            lock.unlock();
        }
    }

    private boolean seekWaits() {
        lock.lock();
        try {
            return seekTo != null;
        } finally {
            lock.unlock();
        }
    }

    /** Waits until it is the slice's turn, or for a command when there is none; false if closed. */
    private boolean awaitTurn(@Nullable Slice next) throws InterruptedException {
        lock.lock();
        try {
            while (!closed && seekTo == null) {
                if (next == null || !playing) {
                    changed.await();
                } else {
                    double since = next.endNanos() - anchorSession;
                    long due = anchorTicker + (Double.isInfinite(speed) ? 0 : (long) (since / speed));
                    long left = due - ticker.nanos();
                    if (left <= 0) {
                        return true;
                    }
                    long unused = changed.awaitNanos(ticker.realNanos(left));
                }
            }
            return !closed;
        } finally {
            lock.unlock();
        }
    }

    private void passed(Slice slice) {
        lock.lock();
        try {
            position = slice.endNanos();
        } finally {
            lock.unlock();
        }
    }

    private void report(String line) {
        lock.lock();
        try {
            trouble = line;
        } finally {
            lock.unlock();
        }
    }
}
