package draftwitness.app;

import static org.assertj.core.api.Assertions.assertThat;

import draftwitness.capture.CaptureSession;
import draftwitness.capture.SourceHealth;
import draftwitness.capture.SourcePlan;
import draftwitness.cycle.SessionSummarizer;
import draftwitness.driver.DriverCatalog;
import draftwitness.reading.Block;
import draftwitness.reading.Channel;
import draftwitness.reading.SessionHeader;
import draftwitness.reading.SessionListener;
import draftwitness.reading.Slice;
import draftwitness.reading.SourceEvent;
import draftwitness.reading.SourceState;
import draftwitness.reading.Tap;
import draftwitness.recording.RecordingFile;
import draftwitness.recording.SliceCursor;
import draftwitness.replay.Replayer;
import draftwitness.setup.Setup;
import draftwitness.testkit.Peers;
import draftwitness.testkit.Pty;
import draftwitness.time.Ticker;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Locale;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.Executors;
import java.util.concurrent.ScheduledExecutorService;
import java.util.concurrent.ScheduledFuture;
import java.util.concurrent.TimeUnit;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;

/** Real bytes through real pseudo-terminals into a real recording. */
class LiveSessionTest {
    private static final Tap[] TAPS = {
        Tap.DRAFT_SWITCH, Tap.DRAFT_INDUCER, Tap.DRAFT_COLLECTOR, Tap.DRAFT_VENT,
        Tap.GAS_INLET, Tap.GAS_MANIFOLD, Tap.STATIC_RETURN, Tap.STATIC_SUPPLY
    };

    @TempDir
    Path folder;

    private final StopSignal stop = new StopSignal();
    private final RecordSwitch recorder = new RecordSwitch();
    private final Witness witness = new Witness();

    @BeforeEach
    void needPty() {
        Peers.needPty();
    }

    @AfterEach
    void nothingWaitsForTheSignal() {
        stop.finished(0);
        stop.close();
    }

    /** Remembers all that a session brought, and lets a test wait for a source's state. */
    private static final class Witness implements SessionListener {
        private final List<Slice> slices = Collections.synchronizedList(new ArrayList<>());
        private final CountDownLatch gone = new CountDownLatch(1);
        private final CountDownLatch back = new CountDownLatch(1);

        @Override
        public void begin(SessionHeader header) {
            slices.clear();
        }

        @Override
        public void slice(Slice slice) {
            slices.add(slice);
            for (SourceEvent event : slice.events()) {
                if (event.state() == SourceState.GONE) {
                    gone.countDown();
                }
                if (event.state() == SourceState.LIVE && gone.getCount() == 0) {
                    back.countDown();
                }
            }
        }

        @Override
        public void end() {}
    }

    private static List<SourcePlan> plans(List<String> sources) throws Exception {
        return new SourcePlanner(DriverCatalog.shipped()).plan(sources, List.of());
    }

    private static String value(int port, int i) {
        return String.format(Locale.ROOT, "%d.%d", -(1 + i + 10 * port), i % 10);
    }

    private static long count(int port, int i) {
        return -((1 + i + 10L * port) * 10 + i % 10);
    }

    @Test
    @Timeout(180)
    void given8PortsAt100LinesASecondFor30Seconds_whenRecorded_thenNothingLostDoubledOrOutOfOrder() throws Exception {
        int lines = 3000;
        List<Pty> ports = new ArrayList<>();
        List<String> sources = new ArrayList<>();
        for (Tap tap : TAPS) {
            Pty pty = new Pty();
            ports.add(pty);
            sources.add(tap.role() + "=ascii-line@serial:" + pty.path() + "?baud=115200");
        }
        Path file = folder.resolve("eight.dwrec");
        RecordSwitch.Run run = recorder.start(file);
        CaptureSession session = Sessions.live(plans(sources), Setup.defaults(), stop, List.of(recorder, witness));
        session.start();
        ScheduledExecutorService instruments = Executors.newScheduledThreadPool(2);
        CountDownLatch sent = new CountDownLatch(ports.size() * lines);
        for (int p = 0; p < ports.size(); p++) {
            ports.get(p).send("\r\n"); // from here on whole lines
            ScheduledFuture<?> unused = instruments.scheduleAtFixedRate(
                    instrument(ports.get(p), p, lines, sent), 0, 10, TimeUnit.MILLISECONDS);
        }
        assertThat(sent.await(120, TimeUnit.SECONDS)).isTrue();
        instruments.shutdownNow();
        awaitReadings(session, (long) lines * ports.size());
        session.stop();
        assertThat(run.awaitFinished(30, TimeUnit.SECONDS)).isTrue();
        ports.forEach(Pty::close);

        assertThat(run.failure()).isNull();
        try (RecordingFile recording = RecordingFile.open(file)) {
            for (int p = 0; p < TAPS.length; p++) {
                List<Long> got = counts(recording, TAPS[p]);
                List<Long> expected = new ArrayList<>();
                for (int i = 0; i < lines; i++) {
                    expected.add(count(p, i));
                }
                assertThat(got).as(TAPS[p].role()).isEqualTo(expected);
            }
        }
        assertReplayGivesTheSame(file);
    }

    private static Runnable instrument(Pty pty, int port, int lines, CountDownLatch sent) {
        int[] next = {0};
        return () -> {
            if (next[0] < lines) {
                try {
                    pty.send(value(port, next[0]++) + " Pa\r\n");
                } catch (Exception e) {
                    throw new IllegalStateException(e);
                }
                sent.countDown();
            }
        };
    }

    /** Waits until the session has decoded so many readings; each look follows the next slice. */
    private void awaitReadings(CaptureSession session, long readings) throws Exception {
        for (int look = 0; look < 300; look++) {
            long decoded =
                    session.health().stream().mapToLong(SourceHealth::readings).sum();
            if (decoded >= readings) {
                return;
            }
            assertThat(session.awaitEnd(100, TimeUnit.MILLISECONDS)).isFalse();
        }
        assertThat(session.health().stream().mapToLong(SourceHealth::readings).sum())
                .isEqualTo(readings);
    }

    private static List<Long> counts(RecordingFile recording, Tap tap) throws Exception {
        List<Long> counts = new ArrayList<>();
        SliceCursor cursor = recording.slices();
        for (Slice slice = cursor.next(); slice != null; slice = cursor.next()) {
            for (Block block : slice.blocks()) {
                for (int i = 0; block.channel().tap() == tap && i < block.size(); i++) {
                    counts.add(block.count(i));
                }
            }
        }
        return counts;
    }

    /** The very slices that the live listeners got come out of the recording, read or replayed. */
    private void assertReplayGivesTheSame(Path file) throws Exception {
        List<Slice> live = List.copyOf(witness.slices);
        assertThat(live).hasSizeGreaterThan(10);
        Witness replayed = new Witness();
        try (RecordingFile recording = RecordingFile.open(file)) {
            Replayer replayer = new Replayer(recording, Ticker.system(), List.of(replayed));
            try (replayer) {
                replayer.speed(Double.POSITIVE_INFINITY);
                replayer.start();
                replayer.play();
                assertThat(replayer.awaitEnd(60, TimeUnit.SECONDS)).isTrue();
                assertThat(replayer.trouble()).isNull();
            }
        }
        assertThat(replayed.slices).isEqualTo(live);
    }

    @Test
    @Timeout(60)
    void givenUnpluggedAndReplugged_whenItComesBackUnderTheSameLink_thenAGap_andDataGoOnInTheSameRecording()
            throws Exception {
        Path name = folder.resolve("sensor");
        Path file = folder.resolve("replug.dwrec");
        RecordSwitch.Run run = recorder.start(file);
        Pty first = new Pty();
        first.linkAs(name);
        CaptureSession session = Sessions.live(
                plans(List.of("draft.switch=ascii-line@serial:" + name)),
                Setup.defaults(),
                stop,
                List.of(recorder, witness));
        session.start();
        first.send("\n");
        for (int i = 0; i < 100; i++) {
            first.send(value(0, i) + "\n");
        }
        awaitReadings(session, 100);
        first.send("-77"); // a line cut short by the unplugging must not become a reading
        Pty second = new Pty(); // made before the first goes, so that it gets another number
        first.close();
        assertThat(witness.gone.await(10, TimeUnit.SECONDS)).isTrue();

        ScheduledExecutorService later = Executors.newSingleThreadScheduledExecutor();
        ScheduledFuture<?> unused = later.schedule(
                () -> {
                    second.linkAs(name);
                    return null;
                },
                1200,
                TimeUnit.MILLISECONDS);
        assertThat(witness.back.await(20, TimeUnit.SECONDS)).isTrue();
        later.shutdown();
        second.send("\n"); // from here on whole lines
        for (int i = 100; i < 200; i++) {
            second.send(value(0, i) + "\n");
        }
        awaitReadings(session, 200);
        session.stop();
        assertThat(run.awaitFinished(30, TimeUnit.SECONDS)).isTrue();
        second.close();

        SessionSummarizer summarizer = new SessionSummarizer();
        try (RecordingFile recording = RecordingFile.open(file)) {
            List<Long> expected = new ArrayList<>();
            for (int i = 0; i < 200; i++) {
                expected.add(count(0, i));
            }
            assertThat(counts(recording, Tap.DRAFT_SWITCH)).isEqualTo(expected);
            assertThat(recording.events())
                    .extracting(SourceEvent::state)
                    .containsSubsequence(SourceState.LIVE, SourceState.GONE, SourceState.LIVE);
            summarizer.begin(recording.header());
            recording.forEachSlice(Long.MIN_VALUE, Long.MAX_VALUE, summarizer::slice);
        }
        assertThat(summarizer.summary().channels().get(0).gaps()).hasSize(1);
        assertThat(session.health().get(0).reconnects()).isEqualTo(1);
        assertReplayGivesTheSame(file);
    }

    @Test
    @Timeout(60)
    void givenRecordingStartedInMidSession_whenStoppedAndStartedAgain_thenEachFileHoldsTheMinuteBeforeToo()
            throws Exception {
        try (Pty pty = new Pty()) {
            CaptureSession session = Sessions.live(
                    plans(List.of("draft.switch=ascii-line@serial:" + pty.path())),
                    Setup.defaults(),
                    stop,
                    List.of(recorder, witness));
            session.start();
            pty.send("\n" + value(0, 0) + "\n");
            awaitReadings(session, 1);
            RecordSwitch.Run one = recorder.start(folder.resolve("one.dwrec"));
            pty.send(value(0, 1) + "\n");
            awaitReadings(session, 2);
            recorder.stop();
            assertThat(one.awaitFinished(10, TimeUnit.SECONDS)).isTrue();
            RecordSwitch.Run two = recorder.start(folder.resolve("two.dwrec"));
            pty.send(value(0, 2) + "\n");
            awaitReadings(session, 3);
            session.stop();
            assertThat(two.awaitFinished(10, TimeUnit.SECONDS)).isTrue();
        }
        try (RecordingFile two = RecordingFile.open(folder.resolve("two.dwrec"))) {
            Channel channel = two.channelAt(Tap.DRAFT_SWITCH).orElseThrow();
            assertThat(two.readings(channel)).isEqualTo(3);
            assertThat(counts(two, Tap.DRAFT_SWITCH)).containsExactly(count(0, 0), count(0, 1), count(0, 2));
        }
    }
}
