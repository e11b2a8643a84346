package draftwitness.recording;

import draftwitness.reading.SessionHeader;
import draftwitness.reading.Step;
import draftwitness.recording.RecordingException.Kind;
import java.nio.file.Path;
import java.util.List;
import java.util.concurrent.ArrayBlockingQueue;
import java.util.concurrent.BlockingQueue;
import org.jspecify.annotations.Nullable;

/**
 * Makes a complete recording out of readings that come in order: the caller's thread gathers them, a thread of its own
 * packs and stores what was gathered, so that reading a table and storing it go side by side.
 *
 * <p>Between them is a queue of {@value #WAITING} stretches of a minute; when it is full the caller waits. What goes
 * wrong in storing is thrown at the caller's next call. One owner thread.
 */
final class BulkStore implements AutoCloseable {
    private static final int WAITING = 4;

    private final Path shown;
    private final RecordingWriter writer;
    private final StretchBuilder builder;
    private final BlockingQueue<Stretch> queue = new ArrayBlockingQueue<>(WAITING);
    private final Stretch last = new Stretch(0, 0, List.of());
    private final Thread thread;
    private volatile @Nullable Exception failure;

    /**
     * Begins a recording.
     *
     * @param file exists and is empty
     * @param shown its name in messages
     */
    BulkStore(Path file, Path shown, SessionHeader header) throws RecordingException {
        this.shown = shown;
        writer = RecordingWriter.bulk(file, shown, header);
        builder = new StretchBuilder(header);
        thread = new Thread(this::store, "store");
        thread.setDaemon(true);
        thread.start();
    }

    private void store() {
        try {
            for (Stretch next = queue.take(); next != last; next = queue.take()) {
                if (failure == null) {
                    store(next);
                }
            }
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
        }
    }

    private void store(Stretch next) {
        try {
            writer.append(next, List.of());
        } catch (RecordingException | RuntimeException e) {
            failure = e; // the rest of the queue is emptied, so that the caller never waits in vain
        }
    }

    /** Goes on until this cell is the open one; cells in between stay empty. Never goes back. */
    void open(long cell) throws RecordingException {
        if (builder.untouched()) {
            builder.begin(cell);
        }
        while (builder.nextCell() <= cell) {
            if (RowWriter.packedRowEnds(builder.nextCell(), builder.readings())) {
                hand(builder.take());
            }
            builder.begin(builder.nextCell());
        }
    }

    /** Adds a reading to the open cell; the caller sees to its order and that its time fits the time step. */
    void add(int channel, Step step, long timeNanos, long count) {
        builder.add(channel, step, timeNanos, count);
    }

    private void hand(Stretch stretch) throws RecordingException {
        check();
        try {
            queue.put(stretch);
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
            throw new RecordingException(Kind.UNWRITABLE, shown, "the work was interrupted; try again", e);
        }
    }

    private void check() throws RecordingException {
        Exception e = failure;
        if (e instanceof RecordingException r) {
            throw r;
        }
        if (e != null) {
            throw new IllegalStateException("storing failed", e);
        }
    }

    /** Stores what is left and completes the file; nothing may follow but {@link #close()}. */
    void finish() throws RecordingException {
        if (builder.cells() > 0) {
            hand(builder.take());
        }
        stop();
        check();
        writer.close();
    }

    private void stop() {
        boolean interrupted = false;
        while (thread.isAlive()) {
            try {
                queue.put(last);
                thread.join();
            } catch (InterruptedException e) {
                interrupted = true;
            }
        }
        if (interrupted) {
            Thread.currentThread().interrupt();
        }
    }

    /** Lets go of the file, whose rest is not worth keeping unless it was finished. */
    @Override
    public void close() throws RecordingException {
        stop();
        writer.close();
    }
}
