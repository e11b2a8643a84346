package draftwitness.recording;

import draftwitness.reading.Slice;
import draftwitness.reading.Step;
import draftwitness.reading.Unit;
import java.util.ArrayList;
import java.util.List;
import java.util.function.IntPredicate;
import org.jspecify.annotations.Nullable;

/**
 * Turns a stretch's readings into the bytes of a row's payload and back. One owner thread.
 *
 * <p>Layout ({@code v} unsigned and {@code s} zigzag numbers of 7 bits a byte, lowest first):
 *
 * <pre>
 * v number of runs, then each run:
 *   v channel position   v unit number   v decimals   v readings n (at least 1)
 *   s first time minus floor(first cell's start / time step), in time steps
 *   v late spans, each:  v readings since the previous one's end   v readings   s cells late
 *   v kind of times: 0 as differences, 1 against a grid; + 2 with arrivals; + 4 with counters;
 *                    + 8 these two are those of the run before it
 *     as differences:  v typical difference
 *     against a grid:  v period / 2^-16   s offset   v skips, each: v readings on   v places
 *   v predictor: 0 the previous count, 1 the mean of the last two (rounded down), 2 the straight line through them
 *   s first count
 *   with arrivals of its own:  v 0   s least delay (arrival - time), in time steps
 *                          or  v 1   s delay of the first
 *   with counters of its own:  s first counter   s usual difference
 *   v bytes of the body
 *   body: stream of times (zigzag; n residuals on a grid, else n - 1), stream of n - 1 count residuals (zigzag),
 *         of its own: stream of n delays less the least, or of n - 1 differences of arrivals (zigzag);
 *         of its own: stream of n - 1 differences of counters less the usual one (zigzag);
 *         zero bits up to a whole byte
 * </pre>
 *
 * <p>A counter of -1 is that of a message without one. The streams are written by the row's {@link IntegerCoder}. All
 * arithmetic is modulo 2^64, so any 64-bit count comes back.
 */
final class StretchCodec {
    /** Rows written with Golomb-Rice streams. */
    static final int RICE = 1;
    /** Rows written with streams of asymmetric numeral systems. */
    static final int ANS = 2;
    /** Rows whose readings were thinned away: the payload is {@code v}, how many there were. */
    static final int THINNED = 3;
    /** Rows that stand for what was lost in damage; the payload is empty. */
    static final int LOST = 4;
    /** Most readings that a row is believed to hold. */
    static final int MAX_READINGS = 1 << 24;

    private static final int PREDICTORS = 3;
    private static final int GRID = 1;
    private static final int MOST_KIND = GRID | BesideCodec.ARRIVALS | BesideCodec.COUNTERS | BesideCodec.AS_BEFORE;

    private final long timeStepNanos;
    private final int channels;
    private final boolean whole;
    private final BesideCodec beside = new BesideCodec();
    private final BitWriter out = new BitWriter();
    private final BitWriter body = new BitWriter();
    private long[] scratch = new long[1024];

    /** A codec that reads times and counts only, which is faster where somebody looks at curves. */
    StretchCodec(long timeStepNanos, int channels) {
        this(timeStepNanos, channels, false);
    }

    private StretchCodec(long timeStepNanos, int channels, boolean whole) {
        this.timeStepNanos = timeStepNanos;
        this.channels = channels;
        this.whole = whole;
    }

    /** A codec that reads arrivals and counters too. */
    static StretchCodec whole(long timeStepNanos, int channels) {
        return new StretchCodec(timeStepNanos, channels, true);
    }

    private static @Nullable IntegerCoder coder(int codec) {
        return switch (codec) {
            case RICE -> RiceCoder.INSTANCE;
            case ANS -> AnsCoder.INSTANCE;
            default -> null;
        };
    }

    /** True if this version can decode rows of that codec. */
    static boolean knows(int codec) {
        return codec == THINNED || codec == LOST || coder(codec) != null;
    }

    byte[] encode(Stretch stretch, int codec) {
        IntegerCoder coder = coder(codec);
        if (coder == null) {
            throw new IllegalArgumentException("codec " + codec);
        }
        out.clear();
        out.varint(stretch.runs.size());
        Run before = null;
        for (Run run : stretch.runs) {
            encode(run, before, origin(stretch.firstCell), coder);
            before = run;
        }
        return out.toArray();
    }

    private long origin(long firstCell) {
        return Math.floorDiv(firstCell * Slice.CELL_NANOS, timeStepNanos);
    }

    private void encode(Run run, @Nullable Run before, long origin, IntegerCoder coder) {
        int n = run.size;
        if (scratch.length < n) {
            scratch = new long[2 * n];
        }
        out.varint(run.channel);
        out.varint(UnitCodes.codeOf(run.step.unit()));
        out.varint(run.step.decimals());
        out.varint(n);
        out.signed(run.times[0] - origin);
        writeLate(run);
        body.clear();
        int flags = BesideCodec.flags(run, before);
        encodeTimes(run.times, n, flags, coder);
        int predictor = bestPredictor(run.counts, n);
        out.varint(predictor);
        out.signed(run.counts[0]);
        for (int i = 1; i < n; i++) {
            scratch[i - 1] = BitWriter.zigzag(run.counts[i] - predict(predictor, run.counts, i));
        }
        coder.encode(body, scratch, n - 1);
        beside.writePlan(run, flags, out);
        beside.writeStreams(run, flags, body, coder);
        body.align();
        out.varint(body.size());
        out.bytes(body.buffer(), body.size());
    }

    private void writeLate(Run run) {
        out.varint(run.lateSpans);
        long end = 0;
        for (int s = 0; s < run.lateSpans; s++) {
            out.varint(run.late[3 * s] - end);
            out.varint(run.late[3 * s + 1]);
            out.signed(run.late[3 * s + 2]);
            end = run.late[3 * s] + run.late[3 * s + 1];
        }
    }

    private void encodeTimes(long[] times, int n, int flags, IntegerCoder coder) {
        TimeGrid grid = n < 3 ? null : TimeGrid.fit(times, n);
        if (grid != null && gridIsShorter(grid, times, n)) {
            out.varint(GRID | flags);
            grid.write(out);
            grid.residuals(times, n, scratch);
            coder.encode(body, scratch, n);
            return;
        }
        long typical = n < 2 ? 0 : (times[n - 1] - times[0]) / (n - 1);
        out.varint(flags);
        out.varint(typical);
        IntegerCoder.differences(times, n, typical, scratch);
        coder.encode(body, scratch, n - 1);
    }

    /** Compares rough lengths in bits; a skip costs about two bytes. */
    private boolean gridIsShorter(TimeGrid grid, long[] times, int n) {
        grid.residuals(times, n, scratch);
        double onGrid = IntegerCoder.roughBits(scratch, n) + 16.0 * grid.skips;
        IntegerCoder.differences(times, n, (times[n - 1] - times[0]) / (n - 1), scratch);
        return onGrid <= IntegerCoder.roughBits(scratch, n - 1);
    }

    private static int bestPredictor(long[] counts, int n) {
        int best = 0;
        double least = Double.MAX_VALUE;
        for (int p = 0; p < PREDICTORS; p++) {
            double sum = 0;
            for (int i = 1; i < n; i++) {
                sum += Math.abs((double) (counts[i] - predict(p, counts, i)));
            }
            if (sum < least) {
                least = sum;
                best = p;
            }
        }
        return best;
    }

    private static long predict(int predictor, long[] counts, int i) {
        long last = counts[i - 1];
        if (predictor == 0 || i == 1) {
            return last;
        }
        long before = counts[i - 2];
        return predictor == 1 ? (last + before) >> 1 : 2 * last - before;
    }

    /**
     * Decodes a row whose checksum was right.
     *
     * @param onlyChannel position of the one channel to decode, or -1 for all, as a {@link #whole} codec must
     * @throws IndexOutOfBoundsException if the payload cannot have come from {@link #encode}
     */
    Stretch decode(StretchRow row, int onlyChannel) {
        return decode(row, channels(onlyChannel));
    }

    /** The one channel at a position, or all for -1. */
    static IntPredicate channels(int onlyChannel) {
        return channel -> onlyChannel < 0 || channel == onlyChannel;
    }

    /**
     * Decodes the wanted channels of a row whose checksum was right; the others are passed over.
     *
     * @param wanted tells by its position if a channel is wanted; a {@link #whole} codec wants all
     * @throws IndexOutOfBoundsException if the payload cannot have come from {@link #encode}
     */
    Stretch decode(StretchRow row, IntPredicate wanted) {
        if (row.codec() == LOST) {
            return stretch(row, List.of());
        }
        if (row.codec() == THINNED) {
            Stretch thinned = stretch(row, List.of());
            thinned.thinned = new BitReader(row.payload()).varint();
            return thinned;
        }
        IntegerCoder coder = coder(row.codec());
        if (coder == null) {
            throw new IndexOutOfBoundsException("codec " + row.codec());
        }
        BitReader in = new BitReader(row.payload());
        long origin = origin(row.firstCell());
        int number = in.varint(0, MAX_READINGS);
        List<Run> runs = new ArrayList<>();
        int left = row.readings();
        Run before = null;
        for (int r = 0; r < number; r++) {
            Run run = decodeRun(in, origin, coder, left, wanted, before);
            before = run;
            left -= run.size;
            if (wanted.test(run.channel)) {
                runs.add(run);
            }
        }
        if (left != 0 || in.overrun()) {
            throw new IndexOutOfBoundsException(left + " readings missing");
        }
        return stretch(row, runs);
    }

    private static Stretch stretch(StretchRow row, List<Run> runs) {
        Stretch stretch = new Stretch(row.firstCell(), row.cells(), runs);
        stretch.firstEvent = row.firstEvent();
        stretch.events = row.events();
        return stretch;
    }

    private Run decodeRun(
            BitReader in, long origin, IntegerCoder coder, int most, IntPredicate which, @Nullable Run before) {
        int channel = in.varint(0, channels - 1);
        Unit unit = UnitCodes.of(in.varint());
        Step step = new Step(unit, in.varint(0, Step.MAX_DECIMALS));
        int n = in.varint(1, most);
        boolean wanted = which.test(channel);
        Run run = new Run(channel, step, wanted ? n : 0);
        run.size = n;
        long first = origin + in.signed();
        readLate(in, run);
        int kind = in.varint(0, MOST_KIND);
        boolean onGrid = (kind & GRID) != 0;
        TimeGrid grid = onGrid ? TimeGrid.read(in, n) : null;
        long typical = onGrid ? 0 : in.varint();
        int predictor = in.varint(0, PREDICTORS - 1);
        long firstCount = in.signed();
        beside.readPlan(kind & ~GRID, in);
        int end = in.varint(0, Integer.MAX_VALUE) + in.bytePosition();
        if (wanted) {
            if (grid != null) {
                coder.decode(in, run.times, n);
                grid.times(first, run.times, n);
            } else {
                coder.decode(in, run.times, n - 1);
                sumDifferences(run.times, n, first, typical);
            }
            coder.decode(in, run.counts, n - 1);
            sumCounts(run.counts, n, firstCount, predictor);
            if (whole) {
                beside.readStreams(run, kind & ~GRID, before, in, coder);
            }
        }
        in.seekByte(end);
        return run;
    }

    private static void readLate(BitReader in, Run run) {
        int spans = in.varint(0, run.size);
        int end = 0;
        for (int s = 0; s < spans; s++) {
            int first = end + in.varint(0, run.size - end);
            int number = in.varint(1, run.size - first);
            run.addLate(first, number, in.signed());
            end = first + number;
        }
    }

    private static void sumDifferences(long[] times, int n, long first, long typical) {
        long time = first;
        for (int i = 0; i < n; i++) {
            long next = i + 1 < n ? time + typical + BitWriter.unzigzag(times[i]) : 0;
            times[i] = time;
            time = next;
        }
    }

    private static void sumCounts(long[] counts, int n, long first, int predictor) {
        long before = first;
        long last = first;
        long coded = counts[0];
        counts[0] = first;
        for (int i = 1; i < n; i++) {
            long prediction =
                    predictor == 0 || i == 1 ? last : predictor == 1 ? (last + before) >> 1 : 2 * last - before;
            long count = prediction + BitWriter.unzigzag(coded);
            coded = counts[i];
            counts[i] = count;
            before = last;
            last = count;
        }
    }
}
