package draftwitness.bridge;

import java.io.BufferedOutputStream;
import java.io.IOException;
import java.io.OutputStream;
import java.util.Optional;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.atomic.AtomicLong;

/**
 * Writes messages as lines of JSON to a stream, from a thread of its own, so that a reader that dawdles delays nobody:
 * its outbox drops and counts.
 */
final class StreamSink implements MessageSink, AutoCloseable {
    private static final long POLL_MILLIS = 100;
    private static final long FAREWELL_MILLIS = 5_000;

    private final String name;
    private final OutputStream out;
    private final Outbox outbox;
    private final Runnable whenOver;
    private final Thread thread;
    private final CountDownLatch closing = new CountDownLatch(1);
    private volatile boolean broken;
    private final AtomicLong written = new AtomicLong();
    private volatile String trouble = "";

    /**
     * Prepares to write.
     *
     * @param whenOver called once from the writing thread when it ends, for whatever reason
     */
    StreamSink(String name, OutputStream out, long capacityBytes, Runnable whenOver) {
        this.name = name;
        this.out = new BufferedOutputStream(out, 1 << 16);
        this.outbox = new Outbox(capacityBytes);
        this.whenOver = whenOver;
        this.thread = new Thread(this::run, name);
        thread.setDaemon(true);
    }

    void start() {
        thread.start();
    }

    @Override
    public void send(Message message) {
        if (!broken) {
            outbox.add(message);
        }
    }

    BridgeState state() {
        return new BridgeState(!broken, broken ? trouble : "connected", written.get(), outbox.size(), outbox.dropped());
    }

    private void run() {
        try {
            while (closing.getCount() > 0 || outbox.size() > 0) {
                Optional<Message> next = outbox.poll(POLL_MILLIS, TimeUnit.MILLISECONDS);
                if (next.isPresent()) {
                    out.write(next.get().bytes());
                    out.write('\n');
                    written.incrementAndGet();
                }
                if (outbox.size() == 0) {
                    out.flush();
                }
            }
            out.flush();
        } catch (IOException e) {
            trouble = name + ": the reader left (" + e.getMessage() + ")";
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
        } finally {
            broken = true;
            whenOver.run();
        }
    }

    /** Writes what still waits, for five seconds at most. */
    @Override
    public void close() {
        closing.countDown();
        try {
            thread.join(FAREWELL_MILLIS);
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
        }
    }
}
