package draftwitness.capture;

import draftwitness.link.LinkException;
import draftwitness.link.LinkOpener;
import draftwitness.reading.Channel;
import draftwitness.reading.SessionHeader;
import draftwitness.reading.SessionListener;
import draftwitness.reading.Slice;
import draftwitness.reading.SourceInfo;
import draftwitness.reading.Tap;
import draftwitness.reading.ZeroControl;
import draftwitness.reading.ZeroOffset;
import draftwitness.reading.Zeros;
import draftwitness.time.AwakeTicker;
import draftwitness.time.Ticker;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.TimeUnit;
import java.util.function.Consumer;
import org.jspecify.annotations.Nullable;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/**
 * A live session: several sources, one time, slices out.
 *
 * <p>Threads: {@code link-<id>} reads each link; {@code pipeline} decodes and calls the listeners, in the order given.
 * Each source has a bounded queue between them ({@link FairQueues}) that makes its reader wait when it is full, and
 * they are emptied in turn, so that a source that floods delays itself only; nothing is dropped. {@code write-<id>}
 * sends requests to sources that must be asked. {@link #start} and {@link #stop} come from the owner's thread;
 * {@link #health} may be asked by anyone.
 *
 * <p>A cell of the time grid is handed on {@value #HOLD_MILLIS} ms after its end, once the queue has been seen empty,
 * so that chunks on their way are in it. Files and simulations carry their own times: a cell waits until they have
 * played past it, so that they give the same slices at any speed.
 *
 * <p>While the computer sleeps session time goes on ({@link AwakeTicker}): live sources are told gone from when it fell
 * asleep, and their links are opened anew. A wall clock that was set is told with both of its readings, and changes
 * nothing else.
 */
public final class CaptureSession implements AutoCloseable {
    private static final int HOLD_MILLIS = 100;
    private static final long HOLD_NANOS = HOLD_MILLIS * 1_000_000L;
    private static final int OPENING_SECONDS = 3;
    private static final long OPENING_NANOS = OPENING_SECONDS * 1_000_000_000L;
    private static final long IDLE_WAIT_NANOS = 10_000_000;
    private static final long JOIN_SECONDS = 60;
    private static final Logger LOG = LoggerFactory.getLogger(CaptureSession.class);

    private final List<SourcePlan> plans;
    private final List<SessionListener> listeners;
    private final AwakeTicker ticker;
    private final SessionHeader header;
    private final FairQueues queues;
    private final List<LinkReader> readers = new ArrayList<>();
    private final List<Thread> threads = new ArrayList<>();
    private final List<Thread> readerThreads = new ArrayList<>();
    private final SliceAssembler assembler;
    private final Pipeline pipeline;
    private final Zeros zeros = new Zeros();
    private final GuidedZero guidedZero;
    private final List<SessionListener> failed = new ArrayList<>();
    private volatile List<SourceHealth> health;
    private volatile long handedOnNanos;
    private final CountDownLatch ended = new CountDownLatch(1);
    private volatile boolean stopping;
    private volatile long endNanos = Long.MAX_VALUE;
    private volatile @Nullable String failure;

    /**
     * Prepares a session; its time starts now.
     *
     * @param clock the machine's clock, scaled for simulated and replayed sources
     * @param title what the session is called
     * @param setupToml the setup's text, kept with recordings
     * @param listeners called in this order on the pipeline thread
     */
    public CaptureSession(
            List<SourcePlan> plans,
            LinkOpener opener,
            Ticker clock,
            String title,
            String setupToml,
            List<SessionListener> listeners) {
        this.plans = List.copyOf(plans);
        this.listeners = List.copyOf(listeners);
        this.ticker = new AwakeTicker(clock.fromZero());
        List<Channel> channels =
                plans.stream().flatMap(p -> p.channels().stream()).toList();
        List<SourceInfo> infos = plans.stream().map(SourcePlan::info).toList();
        this.header = new SessionHeader(
                clock.wallClock(), title, SessionHeader.LIVE_TIME_STEP_NANOS, channels, infos, setupToml);
        this.assembler = new SliceAssembler(channels, header.timeStepNanos());
        this.queues = new FairQueues(plans.size());
        this.pipeline = new Pipeline(plans, assembler, ticker);
        this.guidedZero = new GuidedZero(channels);
        this.health = pipeline.health();
        for (int i = 0; i < plans.size(); i++) {
            readers.add(new LinkReader(i, plans.get(i), opener, ticker, queues));
        }
    }

    /** What the session is made of. */
    public SessionHeader header() {
        return header;
    }

    /** The latest figures of each source, in the order of the plans. */
    public List<SourceHealth> health() {
        return health;
    }

    /** Session time that has been handed on, in nanoseconds. */
    public long handedOnNanos() {
        return handedOnNanos;
    }

    /**
     * Ends the session by itself after so much session time, at the end of a cell; to be called before {@link #start}.
     *
     * @param nanos {@link Long#MAX_VALUE} for no end
     */
    public void endAt(long nanos) {
        endNanos = nanos == Long.MAX_VALUE ? nanos : (Slice.indexOf(nanos - 1) + 1) * Slice.CELL_NANOS;
    }

    /** What ended the session early, one line; null if nothing did. A defect, not a sensor's trouble. */
    public @Nullable String failure() {
        return failure;
    }

    /**
     * Opens all links at once and starts. One that is slow does not hold the others up: once a first one is open, it is
     * waited for {@value #OPENING_SECONDS} s at most, and then goes on being opened while the session runs.
     *
     * @throws LinkException if one cannot be opened, as far as it was waited for; the others are closed again
     */
    public void start() throws LinkException {
        for (int i = 0; i < readers.size(); i++) {
            readerThreads.add(launch("link-" + plans.get(i).id(), readers.get(i)));
        }
        try {
            awaitOpenings();
        } catch (LinkException e) {
            readers.forEach(LinkReader::close);
            queues.shut();
            join();
            threads.clear();
            throw e;
        }
        Thread unused = launch("pipeline", this::runPipeline);
    }

    private void awaitOpenings() throws LinkException {
        long firstAt = Long.MAX_VALUE;
        try {
            for (LinkReader next = untried(); next != null; next = untried()) {
                boolean some = readers.stream().anyMatch(LinkReader::isTried);
                firstAt = some && firstAt == Long.MAX_VALUE ? ticker.nanos() : firstAt;
                boolean failed = readers.stream().anyMatch(LinkReader::hasFailed);
                if (failed || (some && ticker.realNanos(ticker.nanos() - firstAt) > OPENING_NANOS)) {
                    break;
                }
                boolean unused = next.awaitTried(IDLE_WAIT_NANOS);
            }
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
            throw new LinkException("interrupted while the sources were being opened", e);
        }
        for (int i = 0; i < readers.size(); i++) {
            LinkException failure = readers.get(i).failureOrGoOn();
            if (failure != null) {
                throw failure;
            }
            if (!readers.get(i).isTried()) {
                pipeline.openingSlowly(i, ticker.nanos());
            }
        }
    }

    private @Nullable LinkReader untried() {
        return readers.stream().filter(r -> !r.isTried()).findFirst().orElse(null);
    }

    private Thread launch(String name, Runnable work) {
        Thread thread = new Thread(work, name);
        thread.setDaemon(true);
        thread.setUncaughtExceptionHandler((t, e) -> LOG.error("{} failed", t.getName(), e));
        threads.add(thread);
        thread.start();
        return thread;
    }

    /**
     * Passes a zero offset, or the fact that takes one back, on to the listeners with the slices. Any thread.
     *
     * @return false if no source of the session is at its tap, or there is no room for it now
     */
    public boolean zero(ZeroOffset zero) throws InterruptedException {
        int source = sourceOf(zero.tap());
        return source >= 0 && queues.offer(source, intake -> intake.zero(source, zero), HOLD_NANOS);
    }

    /** The source that is at a tap, or -1. */
    private int sourceOf(Tap tap) {
        for (int i = 0; i < plans.size(); i++) {
            if (plans.get(i).taps().containsKey(tap)) {
                return i;
            }
        }
        return -1;
    }

    /** Guided zeros of this session's pressure taps. */
    public ZeroControl zeros() {
        return guidedZero;
    }

    /** Waits until every source has come to its end or the session was stopped; false if the time ran out first. */
    public boolean awaitEnd(long timeout, TimeUnit unit) throws InterruptedException {
        return ended.await(timeout, unit);
    }

    /** True once every listener has been told that nothing follows. */
    public boolean hasEnded() {
        return ended.getCount() == 0;
    }

    /**
     * Closes the links, hands on what has arrived, and tells the listeners that nothing follows. Waits for all that.
     *
     * @return false if a listener still had not taken everything after {@value #JOIN_SECONDS} seconds
     */
    public boolean stop() {
        readers.forEach(LinkReader::close);
        stopping = true;
        join();
        return hasEnded() || threads.isEmpty();
    }

    /** Waits for the threads; not for one that hangs opening its link, which closes what it gets by itself. */
    private void join() {
        boolean interrupted = false;
        for (Thread thread : threads) {
            try {
                int reader = readerThreads.indexOf(thread);
                boolean hangs = reader >= 0 && !readers.get(reader).isTried();
                thread.join(TimeUnit.SECONDS.toMillis(hangs ? 1 : JOIN_SECONDS));
            } catch (InterruptedException e) {
                interrupted = true;
            }
        }
        if (interrupted) {
            Thread.currentThread().interrupt();
        }
    }

    @Override
    public void close() {
        boolean unused = stop();
    }

    private void runPipeline() {
        try {
            tell(l -> l.begin(header));
            boolean left = false;
            while (true) {
                // Read before the queues are emptied: when it is false here, a later round empties them again.
                boolean last = stopping && readersDone();
                if (!left) {
                    awaitNews();
                }
                long drainedAt = ticker.nanos();
                ticker.takeJumps().forEach(pipeline::jumped);
                left = pipeline.takeTurns(queues, drainedAt, last);
                pipeline.attend(drainedAt);
                if (pipeline.allOver()) {
                    break; // the session ends with its last reading, not when the clock says so
                }
                long until = Math.min(drainedAt - HOLD_NANOS, pipeline.playedNanos());
                assembler.emitUntil(Math.min(until, endNanos), this::handOn);
                health = pipeline.health();
                if (last || handedOnNanos >= endNanos) {
                    break;
                }
            }
            assembler.finish(endNanos, this::handOn);
            health = pipeline.health();
        } catch (RuntimeException e) {
            failure = "the session ended early by a defect of the program (" + e + ")";
            LOG.error("pipeline failed", e);
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
        } finally {
            pipeline.close();
            queues.shut();
            guidedZero.end();
            tell(SessionListener::end);
            ended.countDown();
        }
    }

    private boolean readersDone() {
        for (int i = 0; i < readers.size(); i++) {
            if (readers.get(i).isTried() && readerThreads.get(i).isAlive()) {
                return false;
            }
        }
        return true;
    }

    /** Waits until something has come or a question is due, or a little. */
    private void awaitNews() throws InterruptedException {
        long untilDue = Math.max(0, pipeline.nextDueNanos() - ticker.nanos());
        queues.awaitNews(Math.min(IDLE_WAIT_NANOS, ticker.realNanos(Math.min(untilDue, IDLE_WAIT_NANOS))));
    }

    private void handOn(Slice slice) {
        handedOnNanos = slice.endNanos();
        zeros.slice(slice);
        guidedZero.slice(slice, zeros).forEach(z -> pipeline.zero(sourceOf(z.tap()), z));
        Slice zeroed = zeros.zeroed(slice);
        tell(l -> l.slice(l.takesRaw() ? slice : zeroed));
    }

    /** One listener's failure is logged once and does not take the others, nor the recording, with it. */
    private void tell(Consumer<SessionListener> what) {
        for (SessionListener listener : listeners) {
            if (!failed.contains(listener)) {
                try {
                    what.accept(listener);
                } catch (RuntimeException e) {
                    failed.add(listener);
                    LOG.error("{} failed and gets nothing more of this session", listener, e);
                }
            }
        }
    }
}
