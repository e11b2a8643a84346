package draftwitness.capture;

import draftwitness.link.LinkException;
import draftwitness.link.LinkOpener;
import draftwitness.reading.Channel;
import draftwitness.reading.SessionHeader;
import draftwitness.reading.SessionListener;
import draftwitness.reading.Slice;
import draftwitness.reading.SourceInfo;
import draftwitness.time.Ticker;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.ArrayBlockingQueue;
import java.util.concurrent.BlockingQueue;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.TimeUnit;
import java.util.function.Consumer;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/**
 * A live session: several sources, one time, slices out.
 *
 * <p>Threads: {@code link-<id>} reads each link; {@code pipeline} decodes and calls the listeners, in the order given.
 * The queue between them ({@value #QUEUE_CHUNKS} chunks) makes readers wait when it is full; nothing is dropped.
 * {@link #start} and {@link #stop} come from the owner's thread; {@link #health} may be asked by anyone.
 *
 * <p>A cell of the time grid is handed on {@value #HOLD_MILLIS} ms after its end, once the queue has been seen empty,
 * so that chunks on their way are in it. Files and simulations carry their own times: a cell waits until they have
 * played past it, so that they give the same slices at any speed.
 */
public final class CaptureSession implements AutoCloseable {
    private static final int QUEUE_CHUNKS = 4096;
    private static final int HOLD_MILLIS = 100;
    private static final long HOLD_NANOS = HOLD_MILLIS * 1_000_000L;
    private static final long IDLE_WAIT_NANOS = 10_000_000;
    private static final long JOIN_SECONDS = 10;
    private static final Logger LOG = LoggerFactory.getLogger(CaptureSession.class);

    private final List<SourcePlan> plans;
    private final List<SessionListener> listeners;
    private final Ticker ticker;
    private final SessionHeader header;
    private final BlockingQueue<Incoming> queue = new ArrayBlockingQueue<>(QUEUE_CHUNKS);
    private final List<LinkReader> readers = new ArrayList<>();
    private final List<Thread> threads = new ArrayList<>();
    private final SliceAssembler assembler;
    private final Pipeline pipeline;
    private final List<SessionListener> failed = new ArrayList<>();
    private volatile List<SourceHealth> health;
    private volatile long handedOnNanos;
    private final CountDownLatch ended = new CountDownLatch(1);
    private volatile boolean stopping;

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
        this.ticker = clock.fromZero();
        List<Channel> channels =
                plans.stream().flatMap(p -> p.channels().stream()).toList();
        List<SourceInfo> infos = plans.stream().map(SourcePlan::info).toList();
        this.header = new SessionHeader(
                clock.wallClock(), title, SessionHeader.LIVE_TIME_STEP_NANOS, channels, infos, setupToml);
        this.assembler = new SliceAssembler(channels, header.timeStepNanos());
        this.pipeline = new Pipeline(plans, assembler);
        this.health = pipeline.health();
        for (int i = 0; i < plans.size(); i++) {
            readers.add(new LinkReader(i, plans.get(i), opener, ticker, queue));
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
     * Opens all links and starts.
     *
     * @throws LinkException if one cannot be opened; those opened before it are closed again
     */
    public void start() throws LinkException {
        try {
            for (LinkReader reader : readers) {
                reader.openFirst();
            }
        } catch (LinkException e) {
            readers.forEach(LinkReader::close);
            throw e;
        }
        launch("pipeline", this::runPipeline);
        for (int i = 0; i < readers.size(); i++) {
            launch("link-" + plans.get(i).id(), readers.get(i));
        }
    }

    private void launch(String name, Runnable work) {
        Thread thread = new Thread(work, name);
        thread.setDaemon(true);
        thread.setUncaughtExceptionHandler((t, e) -> LOG.error("{} failed", t.getName(), e));
        threads.add(thread);
        thread.start();
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
     */
    public void stop() {
        readers.forEach(LinkReader::close);
        stopping = true;
        boolean interrupted = false;
        for (Thread thread : threads) {
            try {
                thread.join(TimeUnit.SECONDS.toMillis(JOIN_SECONDS));
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
        stop();
    }

    private void runPipeline() {
        try {
            tell(l -> l.begin(header));
            while (true) {
                // Read before the queue is emptied: when it is false here, a later round empties the queue again.
                boolean last = stopping && readersDone();
                long drainedAt = drain();
                pipeline.attend(drainedAt);
                if (pipeline.allFinished()) {
                    break; // the session ends with its last reading, not when the clock says so
                }
                assembler.emitUntil(Math.min(drainedAt - HOLD_NANOS, pipeline.playedNanos()), this::handOn);
                health = pipeline.health();
                if (last) {
                    break;
                }
            }
            assembler.finish(this::handOn);
            health = pipeline.health();
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
        } finally {
            tell(SessionListener::end);
            ended.countDown();
        }
    }

    private boolean readersDone() {
        return threads.stream().skip(1).noneMatch(Thread::isAlive);
    }

    /**
     * Takes all that is queued, waiting a little when there is nothing; gives the time before which all has been taken.
     */
    private long drain() throws InterruptedException {
        long at = ticker.nanos();
        long untilDue = Math.max(0, pipeline.nextDueNanos() - at);
        long wait = Math.min(IDLE_WAIT_NANOS, ticker.realNanos(Math.min(untilDue, IDLE_WAIT_NANOS)));
        Incoming next = queue.poll(wait, TimeUnit.NANOSECONDS);
        at = ticker.nanos();
        int most = QUEUE_CHUNKS; // a flood must not keep the others' slices waiting
        while (next != null) {
            next.handOver(pipeline);
            next = --most > 0 ? queue.poll() : null;
        }
        return at;
    }

    private void handOn(Slice slice) {
        handedOnNanos = slice.endNanos();
        tell(l -> l.slice(slice));
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
