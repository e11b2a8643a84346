package draftwitness.recording;

import draftwitness.reading.SessionHeader;
import draftwitness.reading.SessionListener;
import draftwitness.reading.Slice;
import java.nio.file.Path;
import java.util.List;
import java.util.Queue;
import java.util.concurrent.ArrayBlockingQueue;
import java.util.concurrent.BlockingQueue;
import java.util.concurrent.ConcurrentLinkedQueue;
import java.util.concurrent.ThreadFactory;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.atomic.AtomicLong;
import java.util.function.Consumer;
import org.jspecify.annotations.Nullable;

/**
 * Records a session on a thread of its own, so that the disk never holds up the readings.
 *
 * <p>Queue {@code recorder}: {@value #CAPACITY} slices (a minute); when it is full the session's thread waits, and the
 * number of waits is counted; nothing is ever dropped. When writing fails, everything committed is kept, the failure is
 * reported once, and later slices are let go.
 *
 * <p>{@link #begin}, {@link #slice} and {@link #end} are called by the session's thread, {@link #close()} by whoever
 * made the recorder. The file is created by {@code begin}'s thread, so that a failure to create it is reported before
 * {@code begin} returns.
 */
public final class Recorder implements SessionListener, AutoCloseable {
    static final int CAPACITY = 600;
    private static final Slice END = new Slice(Long.MAX_VALUE, List.of(), List.of());

    private final Path file;
    private final @Nullable KeepPolicy policy;
    private final ThreadFactory threads;
    private final Consumer<Exception> onFailure;
    private final BlockingQueue<Slice> queue = new ArrayBlockingQueue<>(CAPACITY);
    /** Spans to be kept: pairs of from and to. Unbounded, since an episode comes minutes apart from the next. */
    private final Queue<long[]> claims = new ConcurrentLinkedQueue<>();

    private final AtomicLong waits = new AtomicLong();
    private final AtomicLong committedNanos = new AtomicLong(Long.MIN_VALUE);
    private @Nullable Thread thread;
    private boolean ended;

    /**
     * Prepares a recorder; nothing is created yet.
     *
     * @param file must not exist when the session begins
     * @param threads makes the one thread that is needed; it is named {@code recorder}
     * @param onFailure told at most once, on the recorder's or the session's thread: a {@link RecordingException}, or
     *     an unchecked exception that shows a defect
     */
    public Recorder(Path file, ThreadFactory threads, Consumer<Exception> onFailure) {
        this(file, null, threads, onFailure);
    }

    /**
     * The same with a policy for what stays at full rate.
     *
     * @param policy null for everything
     */
    public Recorder(Path file, @Nullable KeepPolicy policy, ThreadFactory threads, Consumer<Exception> onFailure) {
        this.file = file;
        this.policy = policy;
        this.threads = threads;
        this.onFailure = onFailure;
    }

    @Override
    public boolean takesRaw() {
        return true;
    }

    @Override
    public synchronized void begin(SessionHeader header) {
        if (thread != null || ended) {
            throw new IllegalStateException("the session began already");
        }
        try {
            RecordingWriter writer = RecordingWriter.create(file, header, policy);
            Thread t = threads.newThread(() -> work(writer));
            t.setName("recorder");
            thread = t;
            t.start();
        } catch (RecordingException e) {
            ended = true;
            onFailure.accept(e);
        }
    }

    @Override
    public void slice(Slice slice) {
        if (running()) {
            put(slice);
        }
    }

    private synchronized boolean running() {
        return thread != null && !ended;
    }

    /** Queues a slice however long it takes; an interrupt is kept for the caller. */
    private void put(Slice slice) {
        if (queue.offer(slice)) {
            return;
        }
        waits.incrementAndGet();
        boolean interrupted = false;
        while (true) {
            try {
                queue.put(slice);
                break;
            } catch (InterruptedException e) {
                interrupted = true;
            }
        }
        if (interrupted) {
            Thread.currentThread().interrupt();
        }
    }

    @Override
    public void end() {
        synchronized (this) {
            if (thread == null || ended) {
                return;
            }
            ended = true;
        }
        put(END);
    }

    /**
     * Ends the recording if that was not done, and waits until the file is finished.
     *
     * @param limit how long to wait at most
     * @return true if the recorder has finished, false if it still writes (or the calling thread was interrupted)
     */
    public boolean awaitFinished(long limit, TimeUnit unit) {
        end();
        Thread t;
        synchronized (this) {
            t = thread;
        }
        if (t == null) {
            return true;
        }
        try {
            t.join(Math.max(1, unit.toMillis(limit)));
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
        }
        return !t.isAlive();
    }

    /** Ends the recording if that was not done, and waits up to a minute until the file is finished. */
    @Override
    public void close() {
        awaitFinished(1, TimeUnit.MINUTES);
    }

    /** Keeps a span at full rate, with the policy's margins, as far as it was not thinned yet. Any thread. */
    public void claim(long fromNanos, long toNanos) {
        claims.add(new long[] {fromNanos, toNanos});
    }

    /** How often the session had to wait for the disk. Any thread. */
    public long waits() {
        return waits.get();
    }

    /** Session time up to which everything is safe on the disk; {@link Long#MIN_VALUE} before. Any thread. */
    public long committedNanos() {
        return committedNanos.get();
    }

    /** Works off the queue; goes on emptying it after a failure, so that the session never hangs on it. */
    private void work(RecordingWriter writer) {
        boolean failed = false;
        boolean interrupted = false;
        while (true) {
            try {
                Slice slice = queue.take();
                if (slice.equals(END)) {
                    break;
                }
                for (long[] claim = claims.poll(); claim != null; claim = claims.poll()) {
                    writer.claim(claim[0], claim[1]);
                }
                if (!failed) {
                    writer.append(slice);
                    committedNanos.set(writer.committedNanos());
                }
            } catch (InterruptedException e) {
                interrupted = true; // only END stops it: what is queued is still written
            } catch (RecordingException | RuntimeException e) {
                failed = true;
                closeAfter(writer, e);
            }
        }
        if (!failed) {
            closeAfter(writer, null);
        }
        if (interrupted) {
            Thread.currentThread().interrupt();
        }
    }

    /** Closes the file and reports the first thing that went wrong, if anything did. */
    private void closeAfter(RecordingWriter writer, @Nullable Exception reason) {
        Exception first = reason;
        try {
            writer.close();
            committedNanos.set(writer.committedNanos());
        } catch (RecordingException | RuntimeException e) {
            if (first == null) {
                first = e;
            } else {
                first.addSuppressed(e);
            }
        }
        if (first != null) {
            onFailure.accept(first);
        }
    }
}
