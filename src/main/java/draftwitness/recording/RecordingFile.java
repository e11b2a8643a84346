package draftwitness.recording;

import draftwitness.reading.Channel;
import draftwitness.reading.SessionHeader;
import draftwitness.reading.Slice;
import draftwitness.reading.SourceEvent;
import draftwitness.reading.Tap;
import draftwitness.reading.Zeros;
import draftwitness.recording.RecordingException.Kind;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import java.util.OptionalLong;
import java.util.function.Consumer;
import java.util.function.IntPredicate;

/**
 * Reads one recording: finished, going on, or cut off by a crash. Never changes it. Several may be open on one file at
 * once. Memory stays bounded by what is asked for.
 *
 * <p>While recording goes on, each call sees what was committed until then. Times are nanoseconds from the session's
 * start. Any thread, one at a time.
 */
public final class RecordingFile implements AutoCloseable {
    private final FileAccess access;
    private final Header header;
    private final StretchCodec codec;
    private final OverviewReader overviews;

    private RecordingFile(FileAccess access, Header header) {
        this.access = access;
        this.header = header;
        SessionHeader session = header.session();
        this.codec =
                new StretchCodec(session.timeStepNanos(), session.channels().size());
        this.overviews = new OverviewReader(access, session);
    }

    /**
     * Opens a recording.
     *
     * @throws RecordingException if there is none, it is foreign, newer than this program, or its header is damaged
     */
    public static RecordingFile open(Path file) throws RecordingException {
        FileAccess access = new FileAccess(file);
        try {
            Header header = access.with(Header::read);
            if (!header.intact()) {
                throw new RecordingException(
                        Kind.DAMAGED, file, "the header is damaged; 'verify' tells what can be recovered");
            }
            return new RecordingFile(access, header);
        } catch (RecordingException e) {
            access.close();
            throw e;
        }
    }

    public Path file() {
        return access.file();
    }

    public SessionHeader header() {
        return header.session();
    }

    /** Name and version of the program that recorded it. */
    public String software() {
        return header.software();
    }

    /** True once the recording was closed in good order; false while it goes on, and after a crash. */
    public boolean finished() throws RecordingException {
        return access.with(d -> d.number("SELECT count(*) FROM session WHERE key = '" + Schema.FINISHED + "'")) > 0;
    }

    /** Number of the first cell; empty when nothing was committed yet. */
    public OptionalLong firstCell() throws RecordingException {
        String text = access.with(d -> d.text("SELECT min(first_cell) FROM stretch"));
        return text.isEmpty() ? OptionalLong.empty() : OptionalLong.of(Long.parseLong(text));
    }

    /** Number after that of the last cell; empty when nothing was committed yet. */
    public OptionalLong endCell() throws RecordingException {
        String text =
                access.with(d -> d.text("SELECT first_cell + cells FROM stretch ORDER BY first_cell DESC LIMIT 1"));
        return text.isEmpty() ? OptionalLong.empty() : OptionalLong.of(Long.parseLong(text));
    }

    /** Time of the earliest reading; empty without readings. */
    public OptionalLong firstNanos() throws RecordingException {
        Tally t = tally();
        return t.isEmpty() ? OptionalLong.empty() : OptionalLong.of(t.firstTime() * header().timeStepNanos());
    }

    /** Time of the latest reading; empty without readings. */
    public OptionalLong lastNanos() throws RecordingException {
        Tally t = tally();
        return t.isEmpty() ? OptionalLong.empty() : OptionalLong.of(t.lastTime() * header().timeStepNanos());
    }

    /** Number of readings of a channel that were recorded, those thinned away later included. */
    public long readings(Channel channel) throws RecordingException {
        return tally().readings(positionOf(channel));
    }

    /**
     * Decimals of the channel's own unit that show all its readings: the finest seen in the file. 0 without readings.
     */
    public int decimals(Channel channel) throws RecordingException {
        return tally().decimals(positionOf(channel));
    }

    /**
     * The spans whose readings were thinned away, oldest first; neighbouring ones joined. Replay passes them as empty
     * slices, and they are no gaps of the instruments.
     */
    public List<Thinned> thinned() throws RecordingException {
        return access.with(d -> Thinned.read(d, StretchCodec.THINNED));
    }

    /** The spans that were lost in damage before this file was repaired, oldest first; their readings are unknown. */
    public List<Thinned> lost() throws RecordingException {
        return access.with(d -> Thinned.read(d, StretchCodec.LOST));
    }

    /** All changes of the sources' states, in the order they were recorded. */
    public List<SourceEvent> events() throws RecordingException {
        long number =
                access.with(d -> d.number("SELECT first_event + events FROM stretch ORDER BY first_cell DESC LIMIT 1"));
        return EventLog.complete(access, 0, number).stream()
                .map(EventLog.Entry::event)
                .toList();
    }

    /** The zero offsets kept with it, to be taken off what its slices bring, which is as it was read. */
    public Zeros zeros() throws RecordingException {
        return Zeros.of(events());
    }

    /**
     * The slices whose cells touch a span of time.
     *
     * @param fromNanos inclusive; {@link Long#MIN_VALUE} for the first cell there is
     * @param toNanos exclusive; {@link Long#MAX_VALUE} for all there will be
     */
    public SliceCursor slices(long fromNanos, long toNanos) throws RecordingException {
        long first = Math.max(Slice.indexOf(fromNanos), firstCell().orElse(0));
        long end = toNanos == Long.MAX_VALUE ? Long.MAX_VALUE : Slice.indexOf(toNanos - 1) + 1;
        return new SliceCursor(access, header, first, Math.max(first, end));
    }

    /** All slices, as they were recorded. */
    public SliceCursor slices() throws RecordingException {
        return slices(Long.MIN_VALUE, Long.MAX_VALUE);
    }

    /**
     * Hands the slices whose cells touch a span of time to a consumer, in order.
     *
     * @param fromNanos inclusive
     * @param toNanos exclusive
     */
    public void forEachSlice(long fromNanos, long toNanos, Consumer<Slice> consumer) throws RecordingException {
        SliceCursor cursor = slices(fromNanos, toNanos);
        for (Slice slice = cursor.next(); slice != null; slice = cursor.next()) {
            consumer.accept(slice);
        }
    }

    /**
     * The readings of a channel in a window; memory is 16 bytes a reading, up to twice that while reading.
     *
     * @param fromNanos inclusive
     * @param toNanos exclusive
     */
    public Series read(Channel channel, long fromNanos, long toNanos) throws RecordingException {
        return read(channel, fromNanos, toNanos, new Zeros());
    }

    /** The same with zero offsets taken off. */
    public Series read(Channel channel, long fromNanos, long toNanos, Zeros zeros) throws RecordingException {
        return read(List.of(channel), fromNanos, toNanos, zeros).get(0);
    }

    /**
     * The readings of several channels in a window, in the order asked for; faster than one after the other.
     *
     * @param fromNanos inclusive
     * @param toNanos exclusive
     */
    public List<Series> read(List<Channel> channels, long fromNanos, long toNanos) throws RecordingException {
        return read(channels, fromNanos, toNanos, new Zeros());
    }

    private List<Series> read(List<Channel> channels, long fromNanos, long toNanos, Zeros zeros)
            throws RecordingException {
        SeriesBuilder[] wanted = new SeriesBuilder[header().channels().size()];
        for (Channel channel : channels) {
            wanted[positionOf(channel)] =
                    new SeriesBuilder(channel, header().timeStepNanos(), fromNanos, toNanos, zeros);
        }
        if (fromNanos < toNanos) {
            forEachRun(cursor(c -> wanted[c] != null, fromNanos, toNanos), run -> wanted[run.channel].add(run));
        }
        Series[] series = new Series[wanted.length];
        for (int c = 0; c < wanted.length; c++) {
            series[c] = wanted[c] == null ? null : wanted[c].build();
        }
        return channels.stream().map(c -> series[positionOf(c)]).toList();
    }

    /** Hands over the runs that may hold readings in a window, in order; parts may lie outside or come twice. */
    void forEachRun(int onlyChannel, long fromNanos, long toNanos, Consumer<Run> consumer) throws RecordingException {
        if (fromNanos >= toNanos) {
            return;
        }
        forEachRun(cursor(onlyChannel, fromNanos, toNanos), consumer);
    }

    private static void forEachRun(StretchCursor cursor, Consumer<Run> consumer) throws RecordingException {
        for (Stretch stretch = cursor.next(); stretch != null; stretch = cursor.next()) {
            stretch.runs.forEach(consumer);
        }
    }

    /** A cursor over the stretches that may hold readings in a window, late ones included. */
    StretchCursor cursor(int onlyChannel, long fromNanos, long toNanos) throws RecordingException {
        return cursor(StretchCodec.channels(onlyChannel), fromNanos, toNanos);
    }

    private StretchCursor cursor(IntPredicate wanted, long fromNanos, long toNanos) throws RecordingException {
        return new StretchCursor(access, codec, wanted, Slice.indexOf(fromNanos), endOf(toNanos));
    }

    /** The cell before which everything travelled that was read before a time. */
    private long endOf(long toNanos) throws RecordingException {
        long lastCell = Slice.indexOf(toNanos - 1);
        long lateEnd = access.with(d -> d.number("SELECT coalesce(max(first_cell + cells), " + Long.MIN_VALUE
                + ") FROM stretch WHERE late_cells > 0 AND first_cell > " + lastCell
                + " AND first_cell - late_cells <= " + lastCell));
        return Math.max(lastCell + 1, lateEnd);
    }

    /**
     * A channel's readings in a window, summed up in buckets at least as fine as asked for: from the overview where
     * that is fine enough, else from the readings. Buckets that reach over the window's ends are whole.
     *
     * @param fromNanos inclusive
     * @param toNanos exclusive, above {@code fromNanos}
     * @param columns how many buckets the window should have at least; twice as many as a screen has columns serves
     *     well
     */
    public Overview overview(Channel channel, long fromNanos, long toNanos, int columns) throws RecordingException {
        if (fromNanos >= toNanos || columns < 1) {
            throw new IllegalArgumentException(columns + " columns from " + fromNanos + " to " + toNanos + " ns");
        }
        int position = positionOf(channel);
        long width = Math.max(1, (long) ((double) (toNanos - fromNanos) / columns));
        int level = Pyramid.LEVELS - 1;
        while (level >= 0 && Pyramid.widthNanos(level) > width) {
            level--;
        }
        long first = Slice.indexOf(fromNanos);
        long end = endOf(toNanos);
        List<Buckets> sum = Pyramid.empty(header().channels().size());
        if (level >= 0) {
            width = Pyramid.widthNanos(level);
            sum = overviews.read(position, level, first, end);
        } else {
            overviews.addReadings(sum, position, width, first, end);
        }
        long bucketWidth = width;
        List<Buckets.Entry> entries = sum.get(position).entries.stream()
                .filter(e -> (e.bucket + 1) * bucketWidth > fromNanos && e.bucket * bucketWidth < toNanos)
                .toList();
        return new Overview(channel, width, entries);
    }

    /** Counts of everything committed so far. */
    private Tally tally() throws RecordingException {
        Tally tally = new Tally(header().channels());
        int channel = 0;
        for (Buckets buckets : overviews.read(-1, Pyramid.LEVELS - 1, Long.MIN_VALUE, Long.MAX_VALUE)) {
            for (Buckets.Entry e : buckets.entries) {
                tally.add(channel, e.step, e.readings, e.firstTime, e.lastTime);
            }
            channel++;
        }
        return tally;
    }

    private int positionOf(Channel channel) {
        int position = header().channels().indexOf(channel);
        if (position < 0) {
            throw new IllegalArgumentException(channel + " is not in " + file());
        }
        return position;
    }

    /** The channel at a tap. */
    public Optional<Channel> channelAt(Tap tap) {
        return header().channelAt(tap);
    }

    @Override
    public void close() throws RecordingException {
        access.close();
    }
}
