package draftwitness.capture;

import draftwitness.driver.DecodeSink;
import draftwitness.driver.Decoder;
import draftwitness.driver.Fault;
import draftwitness.link.ByteLink;
import draftwitness.reading.Block;
import draftwitness.reading.Chunk;
import draftwitness.reading.Decimal;
import draftwitness.reading.Quantity;
import draftwitness.reading.SourceEvent;
import draftwitness.reading.SourceState;
import draftwitness.reading.Tap;
import draftwitness.reading.Unit;
import draftwitness.reading.ZeroOffset;
import draftwitness.time.AwakeTicker;
import draftwitness.time.Ticker;
import java.util.Arrays;
import java.util.EnumMap;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.OptionalLong;
import org.jspecify.annotations.Nullable;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/** One source's decoder, link, state and figures. One owner thread, the pipeline's. */
final class LiveSource implements DecodeSink, AutoCloseable {
    /** First bytes this long after opening begin a message: far longer than any pause within one on a live line. */
    private static final long IN_STEP_SILENCE_NANOS = 500_000_000;

    /** An open source that says nothing for so long is called silent. */
    static final long SILENCE_NANOS = 5_000_000_000L;

    private static final String SILENCE_WORDS = "nothing for 5 s";
    private static final String FLOOD_WORDS = "sends more than can be told apart; read more slowly";
    private static final String STUCK_WORDS = "took no more bytes for 2 s; closed, to be opened again";
    private static final long WAIT_WINDOW_NANOS = 1_000_000_000;

    private static final Logger LOG = LoggerFactory.getLogger(LiveSource.class);

    private final SourcePlan plan;
    private final SliceAssembler assembler;
    private final Ticker ticker;
    private final Decoder decoder;
    private final SampleTimes times;
    private final Pace pace = new Pace();
    private final int[] channelOfReading;
    private final Quantity[] quantityOfReading;
    private final boolean expectsBytes;
    private final Map<Fault, Long> faults = new EnumMap<>(Fault.class);
    private LinkWriter writer;
    private @Nullable ByteLink link;
    private @Nullable String closedBecause;
    private SourceState state = SourceState.OPENING;
    private String detail = "";
    private long sinceNanos;
    private long openedNanos;
    private long lastByteNanos;
    private boolean first;
    private boolean paced;
    private boolean flooded;
    private boolean slow;
    private long bytes;
    private long readings;
    private long skippedBytes;
    private int reconnects;
    private long late;
    private int battery = -1;
    private long zeroNanos = -1;

    private boolean onControlLine;
    private long counter = Block.NO_COUNTER;
    private int counterBits;
    private @Nullable Stamp stamp;
    private int lastIndex;

    private long askedNanos = Long.MIN_VALUE;
    private long answerNanos = -1;
    private long waitNanos = -1;
    private long waitBefore = -1;
    private long waitWindowNanos;

    LiveSource(SourcePlan plan, int firstChannel, SliceAssembler assembler, Ticker ticker) {
        this.plan = plan;
        this.assembler = assembler;
        this.ticker = ticker;
        this.decoder = plan.driver().newDecoder();
        this.times = new SampleTimes(plan.driver().sampleRate());
        this.writer = new LinkWriter(plan.id(), ticker);
        this.channelOfReading = new int[plan.driver().readings().size()];
        this.quantityOfReading = new Quantity[channelOfReading.length];
        Arrays.fill(channelOfReading, -1);
        int channel = firstChannel;
        boolean pressure = false;
        for (Map.Entry<Tap, Integer> tap : plan.taps().entrySet()) {
            channelOfReading[tap.getValue()] = channel++;
            quantityOfReading[tap.getValue()] = tap.getKey().quantity();
            pressure |= tap.getKey().quantity() != Quantity.CONTACT;
        }
        this.expectsBytes = pressure; // a contact may rightly be quiet for hours
    }

    SourceState state() {
        return state;
    }

    /** Session time up to which it has played; {@link Long#MAX_VALUE} unless it is paced and plays. */
    long playedNanos() {
        if (state == SourceState.OPENING) {
            return slow ? Long.MAX_VALUE : 0;
        }
        return paced && !isOver() ? lastByteNanos : Long.MAX_VALUE;
    }

    /** Whether nothing more can come: it ended, or it is a file or simulation that failed, which is not begun anew. */
    boolean isOver() {
        return state == SourceState.FINISHED || (paced && state == SourceState.GONE);
    }

    /** Its driver threw: the link is closed, and begun anew by its reader. */
    void failed(RuntimeException e) {
        LOG.error("driver of {} failed", plan.id(), e);
        closedBecause = "its driver failed (" + e + ")";
        ByteLink open = link;
        link = null;
        if (open != null) {
            LinkWriter.closeStuck(plan.id(), open);
        }
    }

    long nextDueNanos() {
        return link == null ? Long.MAX_VALUE : decoder.nextDueNanos();
    }

    /** Whether its next bytes may be taken now; see {@link Pace}. */
    boolean mayTake(long nowNanos) {
        if (paced) {
            return true;
        }
        long newest = Long.MIN_VALUE;
        for (int channel : channelOfReading) {
            newest = channel < 0 ? newest : Math.max(newest, assembler.lastNanos(channel));
        }
        return pace.mayTake(nowNanos, newest);
    }

    /** Nothing of it is waiting. */
    void caughtUp() {
        pace.caughtUp();
    }

    /** Sends what is due and notices silence, floods and writes that do not end. */
    void attend(long nowNanos) {
        ByteLink open = link;
        if (open == null) {
            return;
        }
        Optional<byte[]> request = decoder.due(nowNanos, this);
        if (request.isPresent() && writer.send(open, request.get())) {
            askedNanos = nowNanos;
        }
        watchWriter(open, nowNanos);
        if (state == SourceState.LIVE && expectsBytes && !paced && nowNanos - lastByteNanos > SILENCE_NANOS) {
            enter(SourceState.SILENT, nowNanos, SILENCE_WORDS);
        }
        if (!flooded && pace.isFlooded(nowNanos)) {
            flooded = true;
            enter(SourceState.LIVE, nowNanos, FLOOD_WORDS);
        }
    }

    private void watchWriter(ByteLink open, long nowNanos) {
        String failed = writer.takeFailure();
        if (failed != null && closedBecause == null) {
            closedBecause = failed;
        }
        if (writer.isStuck(nowNanos)) {
            closedBecause = STUCK_WORDS;
            link = null;
            LinkWriter.closeStuck(plan.id(), open);
            writer.abandon();
            writer = new LinkWriter(plan.id(), ticker);
        }
    }

    /** The session begins without it. */
    void openingSlowly(long nowNanos) {
        slow = true;
        enter(SourceState.OPENING, nowNanos, "is still being opened; the others go on");
    }

    /** The computer slept, or its clock was set; files and simulations with times of their own do not care. */
    void jumped(AwakeTicker.Jump jump) {
        if (paced || isOver()) {
            return;
        }
        long at = Math.max(jump.atNanos(), assembler.openNanos());
        String words = JumpWords.of(jump);
        ByteLink open = link;
        if (jump.why() != AwakeTicker.Why.SLEPT || open == null) {
            assembler.event(new SourceEvent(plan.id(), at, state, words));
            return;
        }
        // The port may be another one now, and what is left in its buffers belongs to before: it is opened anew.
        enter(SourceState.GONE, at, words);
        closedBecause = words;
        link = null;
        LinkWriter.closeStuck(plan.id(), open);
    }

    void opened(ByteLink opened, long timeNanos, boolean again) {
        link = opened;
        closedBecause = null;
        paced = opened.isPaced();
        openedNanos = paced ? 0 : timeNanos;
        lastByteNanos = openedNanos;
        first = true;
        flooded = false;
        reconnects += again ? 1 : 0;
        times.restart();
        startMessage();
        askedNanos = Long.MIN_VALUE;
        decoder.restart(timeNanos);
        enter(SourceState.LIVE, openedNanos, again ? "back" : "opened");
    }

    void gone(long timeNanos, String why) {
        String failed = writer.takeFailure();
        String reason = closedBecause == null ? failed : closedBecause;
        link = null;
        enter(SourceState.GONE, timeNanos, reason == null ? why : plan.address() + ": " + reason);
    }

    void retrying(long timeNanos, String why) {
        if (state != SourceState.RETRYING) {
            enter(SourceState.RETRYING, timeNanos, why);
        }
    }

    void finished(long timeNanos) {
        if (closedBecause != null) {
            gone(timeNanos, ""); // it ended before its closing took effect
            return;
        }
        link = null;
        enter(SourceState.FINISHED, paced ? lastByteNanos : timeNanos, "came to its end");
    }

    void take(Chunk chunk) {
        if (link == null) {
            return; // what was still queued when its driver failed
        }
        onControlLine = plan.driver().controlLines().contains(chunk.endpoint());
        if (first && !onControlLine) {
            first = false;
            if (paced || chunk.arrivalNanos() - openedNanos >= IN_STEP_SILENCE_NANOS) {
                decoder.restartInStep(chunk.arrivalNanos());
            }
        }
        if (paced && expectsBytes && chunk.arrivalNanos() - lastByteNanos > SILENCE_NANOS) {
            enter(SourceState.SILENT, lastByteNanos + SILENCE_NANOS, SILENCE_WORDS);
        }
        bytes += chunk.size();
        if (!onControlLine) {
            lastByteNanos = chunk.arrivalNanos();
            if (state == SourceState.SILENT) {
                enter(SourceState.LIVE, chunk.arrivalNanos(), "speaks again");
            }
        }
        if (!paced) {
            pace.took(chunk.size());
            noteWait(chunk.arrivalNanos());
        }
        decoder.decode(chunk, this);
    }

    private void noteWait(long arrivalNanos) {
        long now = ticker.nanos();
        if (now - waitWindowNanos > WAIT_WINDOW_NANOS) {
            waitWindowNanos = now;
            waitBefore = waitNanos;
            waitNanos = -1;
        }
        waitNanos = Math.max(waitNanos, now - arrivalNanos);
    }

    @Override
    public void counter(long value, int bits) {
        startMessage();
        counter = value;
        counterBits = bits;
    }

    @Override
    public void reading(int index, Decimal value, Unit unit, long arrivalNanos) {
        readings++;
        int channel = channelOfReading[index];
        Stamp at = stampFor(index, arrivalNanos);
        if (channel < 0) {
            return;
        }
        if (unit.quantity() != quantityOfReading[index]) {
            count(Fault.UNKNOWN_UNIT);
            return;
        }
        late += assembler.add(channel, at, value, unit) ? 0 : 1;
    }

    /** All readings of one message were taken at one time; a reading that comes again belongs to the next message. */
    private Stamp stampFor(int index, long arrivalNanos) {
        if (onControlLine) {
            return Stamp.arrived(arrivalNanos, Block.NO_COUNTER);
        }
        Stamp known = stamp;
        if (known == null || index <= lastIndex || known.arrivalNanos() != arrivalNanos) {
            long time = times.timeNanos(arrivalNanos, counter, counterBits);
            known = new Stamp(time, arrivalNanos, times.isComputed(), counter);
            stamp = known;
        }
        lastIndex = index;
        return known;
    }

    private void startMessage() {
        stamp = null;
        counter = Block.NO_COUNTER;
    }

    @Override
    public void message(int size) {
        startMessage();
        if (askedNanos != Long.MIN_VALUE && !onControlLine) {
            answerNanos = lastByteNanos - askedNanos;
            askedNanos = Long.MIN_VALUE;
        }
    }

    @Override
    public void fault(Fault fault, int skipped) {
        count(fault);
        skippedBytes += skipped;
        if (skipped > 0) {
            startMessage();
            times.lost();
        }
    }

    private void count(Fault fault) {
        faults.merge(fault, 1L, Long::sum);
    }

    @Override
    public void battery(int percent) {
        battery = percent;
    }

    private void enter(SourceState next, long timeNanos, String why) {
        state = next;
        detail = why;
        sinceNanos = timeNanos;
        assembler.event(new SourceEvent(plan.id(), timeNanos, next, why));
    }

    /**
     * Passes a zero offset on; the source's state does not change. It holds from a time on that no listener has been
     * told of yet, and each at a time of its own, so that a replay takes it off the same readings.
     */
    void zero(ZeroOffset zero) {
        long from = Math.max(zero.timeNanos(), Math.max(assembler.openNanos(), zeroNanos + 1));
        zeroNanos = from;
        assembler.event(zero.from(from).event(plan.id(), state));
    }

    SourceHealth health() {
        long wait = Math.max(waitNanos, waitBefore);
        return new SourceHealth(
                plan.id(),
                state,
                detail,
                sinceNanos,
                bytes,
                readings,
                faults,
                skippedBytes,
                reconnects,
                late,
                wait < 0 ? OptionalLong.empty() : OptionalLong.of(wait),
                answerNanos < 0 ? OptionalLong.empty() : OptionalLong.of(answerNanos),
                battery < 0 ? OptionalInt.empty() : OptionalInt.of(battery),
                times.words());
    }

    @Override
    public void close() {
        writer.close();
    }
}
