package draftwitness.app;

import draftwitness.dashboard.ColumnGrid;
import draftwitness.dashboard.Columns;
import draftwitness.dashboard.Sample;
import draftwitness.dashboard.SeriesWindows;
import draftwitness.dashboard.SessionModel;
import draftwitness.dashboard.ShownSession;
import draftwitness.dashboard.TimeSpan;
import draftwitness.reading.Channel;
import draftwitness.reading.Step;
import draftwitness.reading.Tap;
import draftwitness.reading.Zeros;
import draftwitness.recording.RecordingException;
import draftwitness.recording.RecordingFile;
import draftwitness.recording.Series;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.util.Optional;
import org.jspecify.annotations.Nullable;

/**
 * A recording's readings for the screen: summed up in memory for wide views, read from the file for close ones, so that
 * every reading can be seen singly and memory stays bounded. One thread at a time (the background's).
 */
final class RecordingWindows implements SeriesWindows {
    /** Views of up to so many readings are read from the file. */
    private static final long CLOSE_READINGS = 200_000;

    private final RecordingFile file;
    private final Zeros zeros;
    private final SeriesWindows summary;
    private final ShownSession whole;

    private RecordingWindows(RecordingFile file, Zeros zeros, ShownSession whole) {
        this.file = file;
        this.zeros = zeros;
        this.whole = whole;
        this.summary = whole.windows();
    }

    /** Reads a recording through once. */
    static RecordingWindows read(RecordingFile file) throws RecordingException {
        SessionModel model = new SessionModel();
        model.begin(file.header());
        Zeros zeros = file.zeros();
        file.forEachSlice(Long.MIN_VALUE, Long.MAX_VALUE, slice -> model.slice(zeros.zeroed(slice)));
        model.end();
        ShownSession shown = model.shown();
        if (shown == null) {
            throw new IllegalStateException("a session that began is not shown");
        }
        return new RecordingWindows(file, zeros, shown);
    }

    /** The recording as a session that has ended. */
    ShownSession session() {
        return whole;
    }

    @Override
    public TimeSpan extent() {
        return summary.extent();
    }

    @Override
    public Columns columns(Tap tap, ColumnGrid grid) {
        Columns wide = summary.columns(tap, grid);
        Optional<Channel> channel = file.channelAt(tap);
        long readings = 0;
        for (int i = 0; i < grid.count(); i++) {
            readings += wide.count(i);
        }
        if (channel.isEmpty() || readings > CLOSE_READINGS) {
            return wide;
        }
        Columns.Builder close = new Columns.Builder(grid);
        Sample before = wide.before();
        if (before != null) {
            close.add(before.timeNanos(), before.value());
        }
        try {
            Series series = file.read(channel.get(), grid.fromNanos(), grid.toNanos(), zeros);
            for (int i = 0; i < series.size(); i++) {
                close.add(series.timeNanos(i), series.value(i));
            }
        } catch (RecordingException e) {
            throw new UncheckedIOException(new IOException(e.getMessage(), e));
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
        return summary.readingAt(tap, nanos);
    }

    @Override
    public @Nullable Step step(Tap tap) {
        return summary.step(tap);
    }
}
