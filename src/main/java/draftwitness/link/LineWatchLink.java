package draftwitness.link;

import draftwitness.reading.Chunk;
import draftwitness.time.Ticker;
import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Queue;
import java.util.concurrent.ArrayBlockingQueue;
import java.util.concurrent.BlockingQueue;
import java.util.concurrent.TimeUnit;
import org.jspecify.annotations.Nullable;

/**
 * A link whose control lines are looked at too: their state after opening and each change come as a chunk of one byte,
 * 1 for asserted, whose endpoint is the line's name, between the chunks of bytes.
 *
 * <p>Lines are looked at every {@value #LOOK_MILLIS} ms: shorter changes may be missed, and a change is stamped up to
 * that much late. The library's own events are not used: they come from a thread that it keeps for itself, and an
 * unplugged port repeats them without end. The bytes are read by a thread of this link, {@code bytes-<name>}, which
 * ends with it.
 */
final class LineWatchLink implements ByteLink {
    static final int LOOK_MILLIS = 5;

    /** An unplugged port shows its lines as dropped, a moment before or after its bytes end. */
    private static final int DROP_WAIT_MILLIS = 50;

    private static final int QUEUE_CHUNKS = 16;

    /** How the port's lines are. The seam to the library, and for tests. */
    interface States {
        /**
         * Whether the line is asserted now.
         *
         * @throws LinkException if that cannot be told: the port is gone
         */
        boolean isAsserted(ControlLine line) throws LinkException;
    }

    /** What the reading thread has: bytes, the end, or a failure. */
    private interface News {
        Optional<Chunk> take() throws LinkException;
    }

    private final String name;
    private final ByteLink bytes;
    private final List<ControlLine> lines;
    private final States states;
    private final Ticker ticker;
    private final BlockingQueue<News> fromBytes = new ArrayBlockingQueue<>(QUEUE_CHUNKS);
    private final Map<ControlLine, Boolean> known = new EnumMap<>(ControlLine.class);
    private final Queue<Chunk> changes = new ArrayDeque<>();
    private final Thread reader;
    private @Nullable News held;
    private volatile boolean closed;

    /**
     * Starts to watch.
     *
     * @param bytes the open port; owned and closed by this link
     * @param lines which lines, at least one
     */
    LineWatchLink(String name, ByteLink bytes, List<ControlLine> lines, States states, Ticker ticker) {
        this.name = name;
        this.bytes = bytes;
        this.lines = List.copyOf(lines);
        this.states = states;
        this.ticker = ticker;
        this.reader = new Thread(this::readBytes, "bytes-" + name);
        reader.setDaemon(true);
        reader.start();
    }

    private void readBytes() {
        try {
            boolean more = true;
            while (more) {
                News next;
                try {
                    Optional<Chunk> chunk = bytes.read();
                    next = () -> chunk;
                    more = chunk.isPresent();
                } catch (LinkException e) {
                    next = () -> {
                        throw new LinkException(String.valueOf(e.getMessage()), e);
                    };
                    more = false;
                }
                fromBytes.put(next); // waits while the session does not read
            }
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt(); // closed
        }
    }

    @Override
    public Optional<Chunk> read() throws LinkException {
        try {
            while (true) {
                if (closed) {
                    throw new LinkException(name + ": closed");
                }
                look();
                Chunk change = changes.poll();
                if (change != null) {
                    return Optional.of(change);
                }
                News news = takeNews(LOOK_MILLIS);
                if (news != null) {
                    return news.take();
                }
            }
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
            throw new LinkException(name + ": interrupted", e);
        }
    }

    private @Nullable News takeNews(int millis) throws InterruptedException {
        News news = held;
        held = null;
        long wait = ticker.realNanos(TimeUnit.MILLISECONDS.toNanos(millis));
        return news == null ? fromBytes.poll(wait, TimeUnit.NANOSECONDS) : news;
    }

    /** Notes what has changed; a drop is believed only once the port has shown that it is still there. */
    private void look() throws LinkException, InterruptedException {
        List<Chunk> found = new ArrayList<>();
        boolean dropped = false;
        long now = ticker.nanos();
        for (ControlLine line : lines) {
            boolean asserted = states.isAsserted(line);
            Boolean before = known.put(line, asserted);
            if (before == null || before != asserted) {
                byte[] state = {(byte) (asserted ? 1 : 0)};
                found.add(new Chunk(state, 0, 1, now, line.name()));
                dropped |= !asserted;
            }
        }
        if (dropped && held == null) {
            held = takeNews(DROP_WAIT_MILLIS);
            Optional<Chunk> unused = held == null ? Optional.empty() : held.take(); // fails if the port is gone
        }
        changes.addAll(found);
    }

    @Override
    public void write(byte[] sent) throws LinkException {
        bytes.write(sent);
    }

    @Override
    public Optional<LinkAddress> returnAddress() {
        return bytes.returnAddress();
    }

    @Override
    public void close() {
        closed = true;
        bytes.close();
        reader.interrupt();
    }
}
