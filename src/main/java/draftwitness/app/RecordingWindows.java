package draftwitness.app;

import draftwitness.dashboard.ColumnGrid;
import draftwitness.dashboard.Columns;
import draftwitness.dashboard.Sample;
import draftwitness.dashboard.SeriesWindows;
import draftwitness.dashboard.SessionModel;
import draftwitness.dashboard.ShownSession;
import draftwitness.dashboard.SourceHistory;
import draftwitness.dashboard.TimeSpan;
import draftwitness.reading.Channel;
import draftwitness.reading.Quantity;
import draftwitness.reading.Slice;
import draftwitness.reading.Step;
import draftwitness.reading.Tap;
import draftwitness.reading.Zeros;
import draftwitness.recording.Overview;
import draftwitness.recording.RecordingException;
import draftwitness.recording.RecordingFile;
import draftwitness.recording.Series;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Path;
import java.util.EnumMap;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.CancellationException;
import java.util.function.BooleanSupplier;
import java.util.function.DoubleConsumer;
import org.jspecify.annotations.Nullable;

/**
 * A recording's readings for the screen. At once from the overview that the file carries; once {@link #load} has been
 * through, wide views come from memory, with every gap. Close views are read from the file, so that every reading can
 * be seen singly and memory stays bounded. One thread at a time asks (the reading thread); another may load.
 */
final class RecordingWindows implements SeriesWindows {
    /** Views of up to so many readings are read from the file. */
    private static final long CLOSE_READINGS = 200_000;

    private static final long SECOND = 1_000_000_000L;

    /** How far back a reading is looked for before everything was read: a contact may have been still for an hour. */
    private static final long[] LOOK_BACK = {10 * SECOND, 3600 * SECOND};

    private final RecordingFile file;
    private final Zeros zeros;
    private final TimeSpan extent;
    private final SourceHistory sources;
    private final Map<Tap, Step> steps = new EnumMap<>(Tap.class);
    private volatile @Nullable SeriesWindows summary;

    private RecordingWindows(RecordingFile file) throws RecordingException {
        this.file = file;
        this.zeros = file.zeros();
        long from = file.firstCell().orElse(0) * Slice.CELL_NANOS;
        long to = Math.max(from, file.endCell().orElse(0) * Slice.CELL_NANOS);
        this.extent = new TimeSpan(from, to);
        this.sources = new SourceHistory(file.events());
        for (Channel c : file.header().channels()) {
            if (file.readings(c) > 0) {
                steps.put(c.tap(), new Step(c.unit(), file.decimals(c)));
            }
        }
    }

    /** Windows that answer from the file's overview; reads no more than that. */
    static RecordingWindows open(RecordingFile file) throws RecordingException {
        return new RecordingWindows(file);
    }

    /**
     * Reads the whole recording through once, by another opening of its file; any thread but the one that asks.
     *
     * @param share told how much was read, 0 to 1
     * @param cancelled asked now and then; when true, reading ends and nothing changes
     */
    void load(DoubleConsumer share, BooleanSupplier cancelled) throws RecordingException {
        Path path = file.file();
        SessionModel model = new SessionModel();
        try (RecordingFile own = RecordingFile.open(path)) {
            model.begin(own.header());
            Zeros kept = own.zeros();
            own.forEachSlice(Long.MIN_VALUE, Long.MAX_VALUE, slice -> {
                if (slice.index() % 1024 == 0) {
                    if (cancelled.getAsBoolean()) {
                        throw new CancellationException();
                    }
                    share.accept((slice.endNanos() - extent.fromNanos()) / (double) Math.max(1, extent.lengthNanos()));
                }
                model.slice(kept.zeroed(slice));
            });
        } catch (CancellationException e) {
            return;
        }
        model.end();
        ShownSession shown = model.shown();
        if (shown != null) {
            summary = shown.windows();
        }
    }

    /** How the sources fared. */
    SourceHistory sources() {
        return sources;
    }

    @Override
    public TimeSpan extent() {
        return extent;
    }

    @Override
    public long revision() {
        return summary == null ? 0 : 1;
    }

    @Override
    public Columns columns(Tap tap, ColumnGrid grid) {
        Optional<Channel> channel = file.channelAt(tap);
        if (channel.isEmpty()) {
            return Columns.empty(grid);
        }
        try {
            SeriesWindows loaded = summary;
            Columns wide = loaded == null ? fromOverview(channel.get(), grid) : loaded.columns(tap, grid);
            long readings = 0;
            for (int i = 0; i < grid.count(); i++) {
                readings += wide.count(i);
            }
            return readings > CLOSE_READINGS ? wide : close(channel.get(), grid, wide);
        } catch (RecordingException e) {
            throw new UncheckedIOException(new IOException(e.getMessage(), e));
        }
    }

    private Columns fromOverview(Channel channel, ColumnGrid grid) throws RecordingException {
        long side = 2 * grid.columnNanos();
        long from = Math.max(grid.fromNanos() - side, extent.fromNanos());
        long to = Math.max(from + 1, Math.min(grid.toNanos() + side, extent.toNanos()));
        Overview overview = file.overview(channel, from, to, 2 * grid.count());
        Columns.Builder columns = new Columns.Builder(grid);
        boolean holds = channel.tap().quantity() == Quantity.CONTACT;
        long hole = Math.max(SECOND, 2 * overview.widthNanos());
        long end = Long.MIN_VALUE;
        for (int i = 0; i < overview.size(); i++) {
            long start = overview.fromNanos(i);
            if (!holds && end != Long.MIN_VALUE && start - end > hole) {
                columns.gap(new TimeSpan(end, start));
            }
            end = start + overview.widthNanos();
            double zero = zeroAt(channel.tap(), start);
            columns.addSummary(
                    (int) Math.min(Integer.MAX_VALUE, overview.readings(i)),
                    start,
                    end - 1,
                    overview.min(i) - zero,
                    overview.max(i) - zero,
                    overview.first(i) - zero,
                    overview.last(i) - zero,
                    Double.NaN);
        }
        return columns.build();
    }

    /** In whole counts of the tap's finest step; a bucket in which the zero changes keeps that of its beginning. */
    private double zeroAt(Tap tap, long nanos) {
        Step step = steps.get(tap);
        return step == null ? 0 : step.inBase(zeros.counts(tap, nanos, step));
    }

    private Columns close(Channel channel, ColumnGrid grid, Columns wide) throws RecordingException {
        Columns.Builder close = new Columns.Builder(grid);
        Sample before = wide.before();
        if (before != null) {
            close.add(before.timeNanos(), before.value());
        }
        Series series = file.read(channel, grid.fromNanos(), grid.toNanos(), zeros);
        for (int i = 0; i < series.size(); i++) {
            close.add(series.timeNanos(i), series.value(i));
        }
        Sample after = wide.after();
        if (after != null) {
            close.add(after.timeNanos(), after.value());
        }
        wide.gaps().forEach(close::gap);
        return close.build();
    }

    @Override
    public @Nullable Sample readingAt(Tap tap, long nanos) {
        SeriesWindows loaded = summary;
        if (loaded != null) {
            return loaded.readingAt(tap, nanos);
        }
        Optional<Channel> channel = file.channelAt(tap);
        if (channel.isEmpty()) {
            return null;
        }
        try {
            for (long back : LOOK_BACK) {
                Series series = file.read(channel.get(), nanos - back, nanos + 1, zeros);
                if (series.size() > 0) {
                    int last = series.size() - 1;
                    return new Sample(series.timeNanos(last), series.value(last));
                }
            }
            return null;
        } catch (RecordingException e) {
            throw new UncheckedIOException(new IOException(e.getMessage(), e));
        }
    }

    @Override
    public @Nullable Step step(Tap tap) {
        return steps.get(tap);
    }
}
