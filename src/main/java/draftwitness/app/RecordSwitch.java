package draftwitness.app;

import draftwitness.reading.SessionHeader;
import draftwitness.reading.SessionListener;
import draftwitness.reading.Slice;
import draftwitness.reading.SourceEvent;
import draftwitness.reading.Tap;
import draftwitness.reading.ZeroOffset;
import draftwitness.recording.KeepPolicy;
import draftwitness.recording.Recorder;
import java.nio.file.Path;
import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Deque;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.concurrent.Executors;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.atomic.AtomicReference;
import org.jspecify.annotations.Nullable;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/**
 * Starts and stops recordings while a session goes on. Keeps the latest minute in memory, so that a recording also has
 * what led up to the moment at which it was started.
 *
 * <p>The session's thread calls the listener's methods; {@link #start} and {@link #stop} may come from any thread and
 * take effect at the next slice.
 */
public final class RecordSwitch implements SessionListener {
    /** Slices kept from before: one minute. */
    private static final int BEFORE_SLICES = 600;

    private static final Logger LOG = LoggerFactory.getLogger(RecordSwitch.class);

    private final Deque<Slice> before = new ArrayDeque<>();
    private final AtomicReference<@Nullable Run> wanted = new AtomicReference<>();
    private final Map<Tap, SourceEvent> zeros = new EnumMap<>(Tap.class);
    private @Nullable SessionHeader header;
    private @Nullable Run running;

    /** One recording. */
    public static final class Run {
        private final Path file;
        private final Recorder recorder;
        private volatile @Nullable Exception failure;
        private volatile long firstNanos = Long.MAX_VALUE;
        private volatile long lastNanos = Long.MIN_VALUE;

        Run(Path file, @Nullable KeepPolicy policy) {
            this.file = file;
            this.recorder = new Recorder(file, policy, Executors.defaultThreadFactory(), e -> failure = e);
        }

        /** Keeps a span of session time at full rate where the policy would thin it. Any thread. */
        public void claim(long fromNanos, long toNanos) {
            recorder.claim(fromNanos, toNanos);
        }

        public Path file() {
            return file;
        }

        public @Nullable Exception failure() {
            return failure;
        }

        /** Recorded session time, in nanoseconds. */
        public long elapsedNanos() {
            long first = firstNanos;
            long last = lastNanos;
            return last > first ? last - first : 0;
        }

        /** Session time that is safe on the disk; {@link Long#MIN_VALUE} before anything is. */
        public long committedNanos() {
            return recorder.committedNanos();
        }

        /** Waits until the file is finished; false if it still is not. */
        public boolean awaitFinished(long limit, TimeUnit unit) {
            return recorder.awaitFinished(limit, unit);
        }

        private void take(Slice slice) {
            if (firstNanos == Long.MAX_VALUE) {
                firstNanos = slice.endNanos() - Slice.CELL_NANOS;
            }
            recorder.slice(slice);
            lastNanos = slice.endNanos();
        }
    }

    @Override
    public boolean takesRaw() {
        return true;
    }

    /** Records into a new file from the next slice on, with the minute before it. */
    public Run start(Path file) {
        return start(file, null);
    }

    /**
     * The same with a policy for what stays at full rate.
     *
     * @param policy null for everything
     */
    public Run start(Path file, @Nullable KeepPolicy policy) {
        Run run = new Run(file, policy);
        wanted.set(run);
        return run;
    }

    /** Ends the recording with the next slice. */
    public void stop() {
        wanted.set(null);
    }

    @Override
    public void begin(SessionHeader begun) {
        header = begun;
        before.clear();
        guarded(this::follow);
    }

    /** A defect must not end a recording unseen: it is the recording's failure, and told as such. */
    private void guarded(Runnable work) {
        try {
            work.run();
        } catch (RuntimeException e) {
            Run run = running == null ? wanted.get() : running;
            if (run != null && run.failure == null) {
                run.failure = e;
            }
            LOG.error("recording failed", e);
        }
    }

    @Override
    public void slice(Slice slice) {
        guarded(() -> {
            follow();
            Run run = running;
            if (run != null) {
                run.take(slice);
            }
        });
        before.add(slice);
        if (before.size() > BEFORE_SLICES) {
            remember(before.remove());
        }
    }

    /** What is older than the minute kept: of that, the zeros in force are told to a recording that starts later. */
    private void remember(Slice older) {
        for (SourceEvent event : older.events()) {
            ZeroOffset.in(event).ifPresent(zero -> zeros.put(zero.tap(), event));
        }
    }

    private Slice withZeros(Slice first) {
        List<SourceEvent> events = new ArrayList<>(zeros.values());
        events.addAll(first.events());
        return new Slice(first.index(), first.blocks(), events);
    }

    private void follow() {
        Run next = wanted.get();
        if (next == running) {
            return;
        }
        if (running != null) {
            running.recorder.end();
        }
        running = next;
        if (next != null && header != null) {
            next.recorder.begin(header);
            boolean first = true;
            for (Slice slice : before) {
                next.take(first ? withZeros(slice) : slice);
                first = false;
            }
        }
    }

    @Override
    public void end() {
        if (running != null) {
            running.recorder.end();
            running = null;
        }
    }
}
