package draftwitness.capture;

import static org.assertj.core.api.Assertions.assertThat;

import draftwitness.driver.DecodeSink;
import draftwitness.driver.Decoder;
import draftwitness.driver.Driver;
import draftwitness.driver.DriverCatalog;
import draftwitness.driver.ReadingSpec;
import draftwitness.link.ByteLink;
import draftwitness.link.Feed;
import draftwitness.link.LinkAddress;
import draftwitness.link.LinkException;
import draftwitness.link.LinkOpener;
import draftwitness.link.PacedLink;
import draftwitness.reading.Block;
import draftwitness.reading.Chunk;
import draftwitness.reading.SessionHeader;
import draftwitness.reading.SessionListener;
import draftwitness.reading.Slice;
import draftwitness.reading.SourceState;
import draftwitness.reading.Tap;
import draftwitness.reading.Unit;
import draftwitness.time.Ticker;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.atomic.AtomicInteger;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;

/** Sessions whose sources, drivers or listeners go wrong. */
@Timeout(60)
class CaptureSessionTest {
    private static final long MS = 1_000_000;

    /** Lines -1, -2, ... every 10 ms of session time; may fail instead of giving line number {@code failAt}. */
    private static Feed lines(int count, int failAt) {
        AtomicInteger next = new AtomicInteger();
        return () -> {
            int i = next.incrementAndGet();
            if (i == failAt) {
                throw new LinkException("made to fail");
            }
            byte[] bytes = (-i + " Pa\n").getBytes(StandardCharsets.US_ASCII);
            return i > count ? Optional.empty() : Optional.of(new Chunk(bytes, 0, bytes.length, i * 10L * MS));
        };
    }

    private static LinkOpener paced(int count, int failAt, AtomicInteger openings) {
        return (address, needs, ticker) -> {
            openings.incrementAndGet();
            return new PacedLink(address.toString(), lines(count, failAt), ticker);
        };
    }

    private static SourcePlan plan(String id, Tap tap, Driver driver) throws Exception {
        return new SourcePlan(id, driver, driver.name(), LinkAddress.parse("file:" + id), Map.of(tap, 0));
    }

    private static Driver asciiLine() throws Exception {
        return DriverCatalog.shipped().find("ascii-line");
    }

    /** Remembers the counts of each tap. */
    private static final class Kept implements SessionListener {
        private final List<Long> draft = Collections.synchronizedList(new ArrayList<>());
        private final List<Long> others = Collections.synchronizedList(new ArrayList<>());
        private volatile long endNanos;

        @Override
        public void begin(SessionHeader header) {}

        @Override
        public void slice(Slice slice) {
            endNanos = slice.endNanos();
            for (Block b : slice.blocks()) {
                for (int i = 0; i < b.size(); i++) {
                    (b.channel().tap() == Tap.DRAFT_SWITCH ? draft : others).add(b.count(i));
                }
            }
        }

        @Override
        public void end() {}
    }

    private static List<Long> upTo(int n) {
        List<Long> out = new ArrayList<>();
        for (long i = 1; i <= n; i++) {
            out.add(-i);
        }
        return out;
    }

    private static CaptureSession session(List<SourcePlan> plans, LinkOpener opener, SessionListener... listeners) {
        return new CaptureSession(plans, opener, Ticker.system().scaled(1000), "", "", List.of(listeners));
    }

    @Test
    void givenFileThatFailsInTheMiddle_whenCaptured_thenNothingTwice_andTheSessionEndsWithIt() throws Exception {
        AtomicInteger openings = new AtomicInteger();
        Kept kept = new Kept();
        CaptureSession session =
                session(List.of(plan("a", Tap.DRAFT_SWITCH, asciiLine())), paced(100, 51, openings), kept);
        session.start();
        assertThat(session.awaitEnd(20, TimeUnit.SECONDS)).isTrue();
        assertThat(session.stop()).isTrue();
        assertThat(kept.draft).isEqualTo(upTo(50));
        assertThat(openings).hasValue(1);
        assertThat(session.health().get(0).state()).isEqualTo(SourceState.GONE);
        assertThat(session.health().get(0).detail()).contains("made to fail");
    }

    @Test
    void givenEndBeforeTheFileIsOver_whenCapturedFasterThanTheClock_thenExactlyThatMuch() throws Exception {
        Kept kept = new Kept();
        CaptureSession session = session(
                List.of(plan("a", Tap.DRAFT_SWITCH, asciiLine())), paced(100_000, -1, new AtomicInteger()), kept);
        session.endAt(2_000 * MS);
        session.start();
        assertThat(session.awaitEnd(20, TimeUnit.SECONDS)).isTrue();
        assertThat(session.stop()).isTrue();
        assertThat(kept.draft).isEqualTo(upTo(199)); // the one at 2 s belongs to the next cell
        assertThat(kept.endNanos).isEqualTo(2_000 * MS);
    }

    /** A driver with a defect: it throws at its tenth chunk. */
    private record Faulty(Driver good) implements Driver {
        @Override
        public String name() {
            return "faulty";
        }

        @Override
        public String title() {
            return "throws";
        }

        @Override
        public List<ReadingSpec> readings() {
            return List.of(new ReadingSpec("pressure", Unit.PASCAL));
        }

        @Override
        public String description() {
            return "";
        }

        @Override
        public Decoder newDecoder() {
            Decoder inner = good.newDecoder();
            AtomicInteger chunks = new AtomicInteger();
            return new Decoder() {
                @Override
                public void decode(Chunk chunk, DecodeSink sink) {
                    if (chunks.incrementAndGet() == 10) {
                        throw new IllegalStateException("defect");
                    }
                    inner.decode(chunk, sink);
                }

                @Override
                public void restart(long nowNanos) {
                    inner.restart(nowNanos);
                }

                @Override
                public void restartInStep(long nowNanos) {
                    inner.restartInStep(nowNanos);
                }

                @Override
                public int held() {
                    return inner.held();
                }
            };
        }
    }

    @Test
    void givenDriverThatThrows_whenCaptured_thenItsSourceIsGoneWithTheReason_andTheOthersGoOn() throws Exception {
        Kept kept = new Kept();
        CaptureSession session = session(
                List.of(
                        plan("a", Tap.DRAFT_SWITCH, new Faulty(asciiLine())),
                        plan("b", Tap.DRAFT_INDUCER, asciiLine())),
                paced(300, -1, new AtomicInteger()),
                kept);
        session.start();
        assertThat(session.awaitEnd(20, TimeUnit.SECONDS)).isTrue();
        assertThat(session.stop()).isTrue();
        assertThat(kept.draft).isEqualTo(upTo(9));
        assertThat(kept.others).isEqualTo(upTo(300));
        assertThat(session.health().get(0).state()).isEqualTo(SourceState.GONE);
        assertThat(session.health().get(0).detail())
                .contains("its driver failed")
                .contains("defect");
        assertThat(session.failure()).isNull();
    }

    @Test
    void givenListenerThatThrows_whenCaptured_thenTheOthersGetEverything() throws Exception {
        Kept kept = new Kept();
        SessionListener broken = new SessionListener() {
            @Override
            public void begin(SessionHeader header) {}

            @Override
            public void slice(Slice slice) {
                throw new IllegalStateException("defect of a listener");
            }

            @Override
            public void end() {}
        };
        CaptureSession session = session(
                List.of(plan("a", Tap.DRAFT_SWITCH, asciiLine())), paced(300, -1, new AtomicInteger()), broken, kept);
        session.start();
        assertThat(session.awaitEnd(20, TimeUnit.SECONDS)).isTrue();
        assertThat(kept.draft).isEqualTo(upTo(300));
        assertThat(session.stop()).isTrue();
    }

    @Test
    void givenLinkThatClosesAtOnceAgainAndAgain_whenItNeverSpeaks_thenThePausesGrow() throws Exception {
        AtomicInteger openings = new AtomicInteger();
        CountDownLatch enough = new CountDownLatch(1);
        LinkOpener flapping = (address, needs, ticker) -> {
            openings.incrementAndGet();
            return new ByteLink() {
                @Override
                public Optional<Chunk> read() throws LinkException {
                    throw new LinkException("closed by the other side");
                }

                @Override
                public void write(byte[] bytes) {}

                @Override
                public void close() {}
            };
        };
        CaptureSession session = new CaptureSession(
                List.of(plan("a", Tap.DRAFT_SWITCH, asciiLine())), flapping, Ticker.system(), "", "", List.of());
        session.start();
        assertThat(enough.await(4, TimeUnit.SECONDS)).isFalse();
        assertThat(session.stop()).isTrue();
        // Openings at 0, 0.25, 0.75, 1.75 and 3.75 s; without growing pauses there would be sixteen.
        assertThat(openings.get()).isBetween(2, 5);
    }
}
