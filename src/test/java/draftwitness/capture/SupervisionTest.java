package draftwitness.capture;

import static org.assertj.core.api.Assertions.assertThat;

import draftwitness.driver.DecodeSink;
import draftwitness.driver.Decoder;
import draftwitness.driver.Driver;
import draftwitness.driver.DriverCatalog;
import draftwitness.driver.Fault;
import draftwitness.driver.ReadingSpec;
import draftwitness.link.LinkAddress;
import draftwitness.link.Links;
import draftwitness.reading.Block;
import draftwitness.reading.Chunk;
import draftwitness.reading.SessionHeader;
import draftwitness.reading.SessionListener;
import draftwitness.reading.Slice;
import draftwitness.reading.SourceEvent;
import draftwitness.reading.SourceState;
import draftwitness.reading.Tap;
import draftwitness.testkit.Peers;
import draftwitness.testkit.Pty;
import draftwitness.time.Ticker;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Collections;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Random;
import java.util.concurrent.Executors;
import java.util.concurrent.ScheduledExecutorService;
import java.util.concurrent.ScheduledFuture;
import java.util.concurrent.TimeUnit;
import java.util.function.Predicate;
import java.util.stream.Stream;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;

/** One source misbehaves on a real pseudo-terminal; three good ones beside it must not notice. */
@Timeout(150)
class SupervisionTest {
    private static final Tap[] GOOD = {Tap.DRAFT_INDUCER, Tap.GAS_INLET, Tap.GAS_MANIFOLD};
    private static final int LINES = 200;

    @TempDir
    Path folder;

    private final Witness witness = new Witness();
    private final List<Pty> ports = new ArrayList<>();
    private final ScheduledExecutorService instruments = Executors.newScheduledThreadPool(2);
    private long filesBefore;
    private volatile boolean flooding = true;

    /** Remembers what came, and lets a test wait until something has. */
    private static final class Witness implements SessionListener {
        private final Map<Tap, List<Long>> counts = new EnumMap<>(Tap.class);
        private final List<SourceEvent> events = new ArrayList<>();

        @Override
        public void begin(SessionHeader header) {}

        @Override
        public synchronized void slice(Slice slice) {
            for (Block block : slice.blocks()) {
                List<Long> list = counts.computeIfAbsent(block.channel().tap(), t -> new ArrayList<>());
                for (int i = 0; i < block.size(); i++) {
                    list.add(block.count(i));
                }
            }
            events.addAll(slice.events());
            notifyAll();
        }

        @Override
        public void end() {}

        private synchronized List<Long> counts(Tap tap) {
            return List.copyOf(counts.getOrDefault(tap, List.of()));
        }

        private synchronized long number(Predicate<SourceEvent> which) {
            return events.stream().filter(which).count();
        }

        /** Waits for slices until that many events of a kind have come. */
        private synchronized void await(Predicate<SourceEvent> which, int number) throws InterruptedException {
            while (events.stream().filter(which).count() < number) {
                wait(10_000);
            }
        }

        private synchronized void awaitReadings(Tap tap, int number) throws InterruptedException {
            while (counts.getOrDefault(tap, List.of()).size() < number) {
                wait(10_000);
            }
        }
    }

    @BeforeEach
    void lookAround() throws Exception {
        Peers.needPty();
        new Pty().close(); // the libraries are loaded, and their files open, before files are counted
        try (Pty pty = new Pty()) {
            new Links(Map.of())
                    .open(LinkAddress.parse("serial:" + pty.path()), Ticker.system())
                    .close();
        }
        filesBefore = openFiles();
    }

    @AfterEach
    void letGo() {
        flooding = false;
        instruments.shutdownNow();
        ports.forEach(Pty::close);
    }

    private static long openFiles() throws IOException {
        try (Stream<Path> files = Files.list(Path.of("/proc/self/fd"))) {
            return files.filter(f -> leadsTo(f).contains("pts") || leadsTo(f).contains("ptmx"))
                    .count();
        }
    }

    private static String leadsTo(Path link) {
        try {
            return Files.readSymbolicLink(link).toString();
        } catch (IOException e) {
            return ""; // closed meanwhile
        }
    }

    /** What a session leaves behind once it has stopped and the instruments are gone: nothing. */
    private void assertNothingLeft(CaptureSession session) throws Exception {
        session.stop();
        flooding = false;
        instruments.shutdown();
        ports.forEach(Pty::close);
        assertThat(instruments.awaitTermination(20, TimeUnit.SECONDS)).isTrue();
        assertThat(Thread.getAllStackTraces().keySet())
                .extracting(Thread::getName)
                .noneMatch(n -> n.matches("(link|write|bytes|close)-.*|pipeline"));
        assertThat(openFiles()).isEqualTo(filesBefore);
    }

    private static Driver lines() throws Exception {
        return DriverCatalog.shipped().find("ascii-line");
    }

    private SourcePlan plan(Tap tap, Driver driver, Path path) throws Exception {
        LinkAddress address = LinkAddress.parse("serial:" + path + "?baud=115200");
        return new SourcePlan(tap.role(), driver, driver.name(), address, Map.of(tap, 0));
    }

    /** Starts a session of the bad source and three good ones. */
    private CaptureSession start(Driver driver, Path bad) throws Exception {
        List<SourcePlan> plans = new ArrayList<>();
        plans.add(plan(Tap.DRAFT_SWITCH, driver, bad));
        for (Tap tap : GOOD) {
            Pty pty = new Pty();
            ports.add(pty);
            plans.add(plan(tap, lines(), pty.path()));
        }
        CaptureSession session =
                new CaptureSession(plans, new Links(Map.of()), Ticker.system(), "", "", List.of(witness));
        session.start();
        for (int p = 0; p < GOOD.length; p++) {
            Pty pty = ports.get(p);
            pty.send("\n");
            int[] next = {0};
            ScheduledFuture<?> unused = instruments.scheduleAtFixedRate(
                    () -> {
                        if (next[0] < LINES) {
                            send(pty, next[0]++ + "\n");
                        }
                    },
                    0,
                    10,
                    TimeUnit.MILLISECONDS);
        }
        return session;
    }

    private static void send(Pty pty, String text) {
        try {
            pty.send(text);
        } catch (IOException e) {
            throw new IllegalStateException(e);
        }
    }

    private void assertGoodOnesComplete() throws Exception {
        List<Long> expected = new ArrayList<>();
        for (long i = 0; i < LINES; i++) {
            expected.add(i);
        }
        for (Tap tap : GOOD) {
            witness.awaitReadings(tap, LINES);
            assertThat(witness.counts(tap)).as(tap.role()).isEqualTo(expected);
        }
    }

    /** Sends the same bytes again and again, as fast as the pseudo-terminal takes them. */
    private Thread flood(Pty pty, byte[] bytes) {
        Thread thread = new Thread(
                () -> {
                    try {
                        while (flooding) {
                            pty.send(bytes);
                        }
                    } catch (IOException e) {
                        flooding = false; // closed: the test is over
                    }
                },
                "flood");
        thread.setDaemon(true);
        thread.start();
        return thread;
    }

    @Test
    void givenSourceThatFloodsWithReadings_whenOthersSpeak_thenTheirsComeWhileItFloods_andItsTimesStayInTheSession()
            throws Exception {
        Pty bad = new Pty();
        CaptureSession session = start(lines(), bad.path());
        Thread flood = flood(bad, "1\n".repeat(2000).getBytes(StandardCharsets.US_ASCII));
        assertGoodOnesComplete();
        witness.await(e -> e.detail().contains("sends more than"), 1);
        assertThat(flooding).isTrue();
        SourceHealth health = session.health().get(0);
        assertThat(health.readings()).isPositive();
        long most = session.handedOnNanos() / SessionHeader.LIVE_TIME_STEP_NANOS; // one a step of time, no more
        assertThat(witness.counts(Tap.DRAFT_SWITCH).size()).isLessThanOrEqualTo((int) most);
        flooding = false;
        flood.join();
        bad.close();
        assertNothingLeft(session);
    }

    @Test
    void givenSourceThatSendsGarbageAtFullSpeed_whenOthersSpeak_thenNothingOfItIsAReading() throws Exception {
        byte[] garbage = new byte[4096];
        new Random(1).nextBytes(garbage);
        for (int i = 0; i < garbage.length; i++) {
            garbage[i] |= (byte) 0x80; // no digit and no line end among them
        }
        Pty bad = new Pty();
        CaptureSession session = start(lines(), bad.path());
        Thread flood = flood(bad, garbage);
        assertGoodOnesComplete();
        assertThat(flooding).isTrue();
        SourceHealth health = session.health().get(0);
        assertThat(health.readings()).isZero();
        assertThat(health.skippedBytes()).isPositive();
        assertThat(health.rejected()).isPositive();
        assertThat(health.waitNanos()).isPresent();
        flooding = false;
        flood.join();
        bad.close();
        assertNothingLeft(session);
    }

    @Test
    void givenSourceThatStallsWithinALine_whenOthersSpeak_thenItIsSilent_andGoesOnWhereItStopped() throws Exception {
        Pty bad = new Pty();
        CaptureSession session = start(lines(), bad.path());
        bad.send("\n10\n1");
        assertGoodOnesComplete();
        witness.await(e -> e.sourceId().equals("draft.switch") && e.state() == SourceState.SILENT, 1);
        bad.send("1\n");
        witness.awaitReadings(Tap.DRAFT_SWITCH, 2);
        assertThat(witness.counts(Tap.DRAFT_SWITCH)).containsExactly(10L, 11L);
        bad.close();
        assertNothingLeft(session);
    }

    /** Asks for ever with more bytes than a port's buffers hold. */
    private static final class Chatterbox implements Driver, Decoder {
        @Override
        public String name() {
            return "chatterbox";
        }

        @Override
        public String title() {
            return "";
        }

        @Override
        public List<ReadingSpec> readings() {
            return List.of(new ReadingSpec("pressure", draftwitness.reading.Unit.PASCAL));
        }

        @Override
        public Decoder newDecoder() {
            return this;
        }

        @Override
        public String description() {
            return "";
        }

        @Override
        public void decode(Chunk chunk, DecodeSink sink) {
            sink.fault(Fault.NOISE, chunk.size());
        }

        @Override
        public void restart(long nowNanos) {}

        @Override
        public int held() {
            return 0;
        }

        @Override
        public Optional<byte[]> due(long nowNanos, DecodeSink sink) {
            return Optional.of(new byte[100_000]);
        }

        @Override
        public long nextDueNanos() {
            return 0;
        }
    }

    @Test
    void givenInstrumentThatDoesNotRead_whenAWriteBlocks_thenItsLinkIsClosedAndOpenedAgain_andOthersGoOn()
            throws Exception {
        Pty bad = new Pty(); // its buffers are full after some kB, since nobody reads them
        CaptureSession session = start(new Chatterbox(), bad.path());
        assertGoodOnesComplete();
        witness.await(e -> e.state() == SourceState.GONE && e.detail().contains("took no more bytes"), 1);
        witness.await(e -> e.state() == SourceState.LIVE && e.detail().equals("back"), 1);
        assertThat(witness.number(
                        e -> e.state() == SourceState.GONE && !e.sourceId().equals("draft.switch")))
                .isZero();
        assertNothingLeft(closing(session, bad));
    }

    private static CaptureSession closing(CaptureSession session, Pty bad) {
        session.stop();
        bad.close();
        return session;
    }

    @Test
    void given100QuickReplugsUnderOtherNumbers_whenOver_thenEachReadingCameOnce_andNothingIsLeft() throws Exception {
        Path name = folder.resolve("sensor");
        Pty pty = new Pty();
        pty.linkAs(name);
        CaptureSession session = start(lines(), name);
        List<Long> expected = new ArrayList<>();
        for (int i = 0; i < 100; i++) {
            pty.send("\n" + i + "\n");
            expected.add((long) i);
            witness.awaitReadings(Tap.DRAFT_SWITCH, i + 1);
            Pty next = new Pty(); // made before the other goes, so that it gets another number
            next.linkAs(name);
            pty.close();
            pty = next;
            witness.await(e -> e.detail().equals("back"), i + 1);
        }
        assertThat(witness.counts(Tap.DRAFT_SWITCH)).isEqualTo(expected);
        assertThat(session.health().get(0).reconnects()).isEqualTo(100);
        assertGoodOnesComplete();
        pty.close();
        assertNothingLeft(session);
    }

    @Test
    void givenQueuesOfTwoSources_whenOneIsFull_thenTheOtherStillTakes() throws Exception {
        FairQueues queues = new FairQueues(2);
        Chunk chunk = new Chunk(new byte[4096], 0, 4096, 0);
        int taken = 0;
        while (queues.offer(0, new Incoming.Bytes(0, chunk), 0)) {
            taken++;
        }
        assertThat(taken).isEqualTo(FairQueues.MOST_BYTES / 4096);
        assertThat(queues.offer(1, new Incoming.Bytes(1, chunk), 0)).isTrue();
        assertThat(queues.poll(0)).isNotNull();
        assertThat(queues.offer(0, new Incoming.Bytes(0, chunk), 0)).isTrue();
        List<Integer> left = new ArrayList<>();
        while (queues.poll(0) != null) {
            left.add(0);
        }
        assertThat(Collections.frequency(left, 0)).isEqualTo(taken);
    }
}
