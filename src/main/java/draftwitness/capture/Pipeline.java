package draftwitness.capture;

import draftwitness.driver.DecodeSink;
import draftwitness.driver.Decoder;
import draftwitness.driver.Fault;
import draftwitness.link.ByteLink;
import draftwitness.link.LinkException;
import draftwitness.reading.Chunk;
import draftwitness.reading.Decimal;
import draftwitness.reading.Quantity;
import draftwitness.reading.SourceEvent;
import draftwitness.reading.SourceState;
import draftwitness.reading.Tap;
import draftwitness.reading.Unit;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.jspecify.annotations.Nullable;

/**
 * What the pipeline thread does with the bytes of all sources: decodes them and keeps each source's health. One owner
 * thread.
 */
final class Pipeline implements Incoming.Intake {
    /** First bytes this long after opening begin a message: far longer than any pause within one on a live line. */
    private static final long IN_STEP_SILENCE_NANOS = 500_000_000;

    /** An open source that says nothing for so long is called silent. */
    static final long SILENCE_NANOS = 5_000_000_000L;

    private static final String SILENCE_WORDS = "nothing for 5 s";

    private final List<Source> sources = new ArrayList<>();
    private final SliceAssembler assembler;

    Pipeline(List<SourcePlan> plans, SliceAssembler assembler) {
        this.assembler = assembler;
        int channel = 0;
        for (SourcePlan plan : plans) {
            sources.add(new Source(plan, channel));
            channel += plan.taps().size();
        }
    }

    List<SourceHealth> health() {
        return sources.stream().map(Source::health).toList();
    }

    boolean allFinished() {
        return sources.stream().allMatch(s -> s.state == SourceState.FINISHED);
    }

    /**
     * Session time up to which all paced sources have played; {@link Long#MAX_VALUE} if there is none that still plays.
     */
    long playedNanos() {
        return sources.stream()
                .filter(s -> s.state == SourceState.OPENING || (s.paced && s.state != SourceState.FINISHED))
                .mapToLong(s -> s.state == SourceState.OPENING ? 0 : s.lastByteNanos)
                .min()
                .orElse(Long.MAX_VALUE);
    }

    /** When a decoder wants to ask its instrument something, on the session's clock. */
    long nextDueNanos() {
        return sources.stream()
                .filter(s -> s.link != null)
                .mapToLong(s -> s.decoder.nextDueNanos())
                .min()
                .orElse(Long.MAX_VALUE);
    }

    /** Sends what is due and notices silence. */
    void attend(long nowNanos) {
        for (Source s : sources) {
            ByteLink link = s.link;
            if (link != null) {
                Optional<byte[]> request = s.decoder.due(nowNanos, s);
                if (request.isPresent()) {
                    s.send(link, request.get());
                }
                if (s.state == SourceState.LIVE
                        && s.expectsBytes
                        && !s.paced
                        && nowNanos - s.lastByteNanos > SILENCE_NANOS) {
                    s.enter(SourceState.SILENT, nowNanos, SILENCE_WORDS);
                }
            }
        }
    }

    @Override
    public void chunk(int source, Chunk chunk) {
        sources.get(source).take(chunk);
    }

    @Override
    public void opened(int source, ByteLink link, long timeNanos, boolean again) {
        Source s = sources.get(source);
        s.link = link;
        s.paced = link.isPaced();
        s.openedNanos = s.paced ? 0 : timeNanos;
        s.lastByteNanos = s.openedNanos;
        s.first = true;
        s.reconnects += again ? 1 : 0;
        s.decoder.restart(timeNanos);
        s.enter(SourceState.LIVE, s.openedNanos, again ? "back" : "opened");
    }

    @Override
    public void gone(int source, long timeNanos, String detail) {
        sources.get(source).link = null;
        sources.get(source).enter(SourceState.GONE, timeNanos, detail);
    }

    @Override
    public void retrying(int source, long timeNanos, String detail) {
        Source s = sources.get(source);
        if (s.state != SourceState.RETRYING) {
            s.enter(SourceState.RETRYING, timeNanos, detail);
        }
    }

    @Override
    public void finished(int source, long timeNanos) {
        Source s = sources.get(source);
        s.link = null;
        s.enter(SourceState.FINISHED, s.paced ? s.lastByteNanos : timeNanos, "came to its end");
    }

    /** One source's decoder, link and figures. */
    private final class Source implements DecodeSink {
        private final SourcePlan plan;
        private final Decoder decoder;
        private final int[] channelOfReading;
        private final Quantity[] quantityOfReading;
        private final boolean expectsBytes;
        private final Map<Fault, Long> faults = new EnumMap<>(Fault.class);
        private @Nullable ByteLink link;
        private SourceState state = SourceState.OPENING;
        private String detail = "";
        private long sinceNanos;
        private long openedNanos;
        private long lastByteNanos;
        private boolean first;
        private boolean paced;
        private long bytes;
        private long readings;
        private long skippedBytes;
        private int reconnects;
        private long late;

        Source(SourcePlan plan, int firstChannel) {
            this.plan = plan;
            this.decoder = plan.driver().newDecoder();
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

        void take(Chunk chunk) {
            if (first) {
                first = false;
                if (paced || chunk.arrivalNanos() - openedNanos >= IN_STEP_SILENCE_NANOS) {
                    decoder.restartInStep(chunk.arrivalNanos());
                }
            }
            if (paced && expectsBytes && chunk.arrivalNanos() - lastByteNanos > SILENCE_NANOS) {
                enter(SourceState.SILENT, lastByteNanos + SILENCE_NANOS, SILENCE_WORDS);
            }
            bytes += chunk.size();
            lastByteNanos = chunk.arrivalNanos();
            if (state == SourceState.SILENT) {
                enter(SourceState.LIVE, chunk.arrivalNanos(), "speaks again");
            }
            decoder.decode(chunk, this);
        }

        void send(ByteLink open, byte[] request) {
            try {
                open.write(request);
            } catch (LinkException e) {
                detail = String.valueOf(e.getMessage());
                open.close(); // the reader notices, and opens it again
            }
        }

        @Override
        public void reading(int index, Decimal value, Unit unit, long arrivalNanos) {
            readings++;
            int channel = channelOfReading[index];
            if (channel < 0) {
                return;
            }
            if (unit.quantity() != quantityOfReading[index]) {
                fault(Fault.UNKNOWN_UNIT, 0);
                return;
            }
            late += assembler.add(channel, arrivalNanos, value, unit) ? 0 : 1;
        }

        @Override
        public void fault(Fault fault, int skipped) {
            faults.merge(fault, 1L, Long::sum);
            skippedBytes += skipped;
        }

        void enter(SourceState next, long timeNanos, String why) {
            state = next;
            detail = why;
            sinceNanos = timeNanos;
            assembler.event(new SourceEvent(plan.id(), timeNanos, next, why));
        }

        SourceHealth health() {
            return new SourceHealth(
                    plan.id(), state, detail, sinceNanos, bytes, readings, faults, skippedBytes, reconnects, late);
        }
    }
}
