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
import draftwitness.reading.SourceEvent;
import draftwitness.reading.SourceState;
import draftwitness.reading.Tap;
import draftwitness.reading.Unit;
import draftwitness.time.Ticker;
import java.nio.charset.StandardCharsets;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalLong;
import java.util.concurrent.BlockingQueue;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.LinkedBlockingQueue;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.atomic.AtomicBoolean;
import java.util.concurrent.atomic.AtomicInteger;
import java.util.concurrent.atomic.AtomicLong;
import java.util.function.BooleanSupplier;
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

    /** The machine's clock, of a machine that can be put to sleep. */
    private static final class Sleeper implements Ticker {
        private final Ticker machine = Ticker.system();
        private final AtomicLong sleptNanos = new AtomicLong();
        private final AtomicLong setNanos = new AtomicLong();

        @Override
        public long nanos() {
            return machine.nanos();
        }

        @Override
        public Instant wallClock() {
            return machine.wallClock().plusNanos(sleptNanos.get() + setNanos.get());
        }

        @Override
        public long realNanos(long tickerNanos) {
            return tickerNanos;
        }

        @Override
        public boolean hasMachinesWallClock() {
            return true;
        }

        @Override
        public OptionalLong sinceBootNanos() {
            return OptionalLong.of(machine.nanos() + sleptNanos.get());
        }
    }

    /** A port on which lines come when a test says so. */
    private static final class Port implements ByteLink {
        private final BlockingQueue<String> lines;
        private final Ticker ticker;
        private final AtomicBoolean closed = new AtomicBoolean();

        Port(BlockingQueue<String> lines, Ticker ticker) {
            this.lines = lines;
            this.ticker = ticker;
        }

        @Override
        public Optional<Chunk> read() throws LinkException {
            try {
                while (!closed.get()) {
                    String line = lines.poll(5, TimeUnit.MILLISECONDS);
                    if (line != null) {
                        byte[] bytes = ("\n" + line + " Pa\n").getBytes(StandardCharsets.US_ASCII);
                        return Optional.of(new Chunk(bytes, 0, bytes.length, ticker.nanos()));
                    }
                }
            } catch (InterruptedException e) {
                Thread.currentThread().interrupt();
            }
            throw new LinkException("port: closed");
        }

        @Override
        public void write(byte[] bytes) {}

        @Override
        public void close() {
            closed.set(true);
        }
    }

    /** Remembers the times of readings and all events. */
    private static final class Times implements SessionListener {
        private final List<Long> nanos = Collections.synchronizedList(new ArrayList<>());
        private final List<SourceEvent> events = Collections.synchronizedList(new ArrayList<>());

        @Override
        public void begin(SessionHeader header) {}

        @Override
        public void slice(Slice slice) {
            events.addAll(slice.events());
            slice.blocks().forEach(b -> nanos.add(b.timeNanos(0)));
        }

        @Override
        public void end() {}
    }

    private static void await(CaptureSession session, BooleanSupplier wanted) throws InterruptedException {
        while (!wanted.getAsBoolean()) {
            assertThat(session.awaitEnd(5, TimeUnit.MILLISECONDS)).isFalse();
        }
    }

    @Test
    void givenComputerThatSleepsForAnHour_whenItWakes_thenTheHourIsAGapInTheSession_andTheSourceIsBack()
            throws Exception {
        Sleeper computer = new Sleeper();
        BlockingQueue<String> lines = new LinkedBlockingQueue<>();
        Times times = new Times();
        try (CaptureSession session = new CaptureSession(
                List.of(plan("a", Tap.DRAFT_SWITCH, asciiLine())),
                (address, needs, ticker) -> new Port(lines, ticker),
                computer,
                "",
                "",
                List.of(times))) {
            session.start();
            lines.add("-1");
            await(session, () -> times.nanos.size() == 1);
            computer.setNanos.set(7_200_000_000_000L); // the clock is put right: no sleep
            await(session, () -> times.events.stream().anyMatch(e -> e.detail().contains("clock was set")));
            computer.sleptNanos.set(3_600_000_000_000L);
            await(session, () -> session.health().get(0).reconnects() == 1);
            lines.add("-2");
            await(session, () -> times.nanos.size() == 2);
        }
        long gap = times.nanos.get(1) - times.nanos.get(0);
        assertThat(gap).isBetween(3_600_000_000_000L, 3_660_000_000_000L);
        SourceEvent slept = times.events.stream()
                .filter(e -> e.state() == SourceState.GONE)
                .findFirst()
                .orElseThrow();
        assertThat(slept.detail()).contains("the computer slept for 1:00:00");
        assertThat(slept.timeNanos()).isLessThan(60_000_000_000L); // from when it fell asleep
    }

    @Test
    void givenOnePortThatHangsWhileOpened_whenStarted_thenTheOthersReadingsComeAllTheSame() throws Exception {
        CountDownLatch hangs = new CountDownLatch(1);
        BlockingQueue<String> lines = new LinkedBlockingQueue<>(List.of("-1"));
        Times times = new Times();
        LinkOpener opener = (address, needs, ticker) -> {
            try {
                if (address.target().equals("slow") && !hangs.await(30, TimeUnit.SECONDS)) {
                    throw new LinkException("slow: hung for too long");
                }
            } catch (InterruptedException e) {
                throw new LinkException("slow: interrupted", e);
            }
            return new Port(lines, ticker);
        };
        try (CaptureSession session = new CaptureSession(
                List.of(plan("slow", Tap.GAS_INLET, asciiLine()), plan("quick", Tap.DRAFT_SWITCH, asciiLine())),
                opener,
                Ticker.system(),
                "",
                "",
                List.of(times))) {
            session.start();
            await(session, () -> times.nanos.size() == 1);
            assertThat(session.health().get(0).state()).isEqualTo(SourceState.OPENING);
            hangs.countDown();
            await(session, () -> session.health().get(0).state() == SourceState.LIVE);
        }
    }
}
