package draftwitness.dashboard;

import draftwitness.reading.Block;
import draftwitness.reading.Channel;
import draftwitness.reading.Quantity;
import draftwitness.reading.SessionHeader;
import draftwitness.reading.SessionListener;
import draftwitness.reading.Slice;
import draftwitness.reading.SourceEvent;
import draftwitness.reading.Step;
import draftwitness.reading.Tap;
import java.util.ArrayList;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;

/**
 * A session in memory for the screen. The pipeline thread feeds it; any thread takes {@link #shown snapshots}. Nothing
 * is fired when readings come: the screen looks when it is ready to draw.
 */
public final class SessionModel implements SessionListener {
    /** Memory for all channels together, unless told otherwise: 192 MB, about 2 h of 8 x 100 Hz at full rate. */
    public static final long DEFAULT_CAP_BYTES = 192L << 20;

    /** Source events kept; of a source that keeps failing, the oldest are forgotten. */
    private static final int MAX_EVENTS = 10_000;

    private final long capBytes;
    private final Map<Tap, SeriesStore> stores = new EnumMap<>(Tap.class);
    private final Map<Tap, Step> steps = new EnumMap<>(Tap.class);
    private final List<SourceEvent> events = new ArrayList<>();
    private SourceHistory history = SourceHistory.none();
    private @Nullable SessionHeader header;
    private long startNanos = Long.MAX_VALUE;
    private long nowNanos;
    private boolean ended;

    public SessionModel() {
        this(DEFAULT_CAP_BYTES);
    }

    /**
     * A session that uses about so much memory, shared equally by its channels (at least 1 MB each).
     *
     * @param capBytes memory for all channels
     */
    public SessionModel(long capBytes) {
        this.capBytes = capBytes;
    }

    @Override
    public synchronized void begin(SessionHeader newHeader) {
        header = newHeader;
        int channels = Math.max(1, newHeader.channels().size());
        for (Channel c : newHeader.channels()) {
            boolean holds = c.tap().quantity() == Quantity.CONTACT;
            stores.put(c.tap(), new SeriesStore(holds, Math.max(1 << 20, capBytes / channels)));
        }
    }

    @Override
    public synchronized void slice(Slice slice) {
        startNanos = Math.min(startNanos, slice.index() * Slice.CELL_NANOS);
        nowNanos = Math.max(nowNanos, slice.endNanos());
        for (SourceEvent event : slice.events()) {
            take(event);
        }
        for (Block block : slice.blocks()) {
            SeriesStore store = stores.get(block.channel().tap());
            if (store != null) {
                store.append(block);
                steps.put(block.channel().tap(), block.step());
            }
        }
    }

    @Override
    public synchronized void end() {
        ended = true;
    }

    private void take(SourceEvent event) {
        if (events.size() == MAX_EVENTS) {
            events.subList(0, MAX_EVENTS / 10).clear();
        }
        events.add(event);
        history = new SourceHistory(events);
        if (event.state().interrupts() && header != null) {
            for (Channel c : header.channels()) {
                if (c.sourceId().equals(event.sourceId())) {
                    store(c.tap()).interrupt(event.timeNanos());
                }
            }
        }
    }

    private SeriesStore store(Tap tap) {
        SeriesStore store = stores.get(tap);
        if (store == null) {
            throw new IllegalStateException("no channel at " + tap.role());
        }
        return store;
    }

    /** Memory in use for readings, in bytes. */
    public synchronized long bytes() {
        return stores.values().stream().mapToLong(SeriesStore::bytes).sum();
    }

    /** The session as it is now, or null before it began. */
    public synchronized @Nullable ShownSession shown() {
        SessionHeader h = header;
        if (h == null) {
            return null;
        }
        Map<Tap, SeriesSnapshot> snapshots = new EnumMap<>(Tap.class);
        stores.forEach((tap, store) -> snapshots.put(tap, store.snapshot()));
        TimeSpan extent = new TimeSpan(Math.min(startNanos, nowNanos), nowNanos);
        return new ShownSession(h, new MemoryWindows(extent, snapshots, copyOf(steps)), history, nowNanos, ended);
    }

    private static Map<Tap, Step> copyOf(Map<Tap, Step> steps) {
        Map<Tap, Step> copy = new EnumMap<>(Tap.class);
        copy.putAll(steps);
        return copy;
    }

    /** The windows of a session in memory. Immutable. */
    private record MemoryWindows(TimeSpan extent, Map<Tap, SeriesSnapshot> series, Map<Tap, Step> steps)
            implements SeriesWindows {
        @Override
        public Columns columns(Tap tap, ColumnGrid grid) {
            SeriesSnapshot s = series.get(tap);
            return s == null ? Columns.empty(grid) : s.columns(grid);
        }

        @Override
        public @Nullable Sample readingAt(Tap tap, long nanos) {
            SeriesSnapshot s = series.get(tap);
            return s == null ? null : s.readingAt(nanos);
        }

        @Override
        public @Nullable Step step(Tap tap) {
            return steps.get(tap);
        }
    }
}
