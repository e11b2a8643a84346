package draftwitness.app;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;
import static org.assertj.core.api.InstanceOfAssertFactories.STRING;

import draftwitness.capture.CaptureSession;
import draftwitness.driver.DriverCatalog;
import draftwitness.link.Feed;
import draftwitness.link.PacedLink;
import draftwitness.reading.Block;
import draftwitness.reading.Channel;
import draftwitness.reading.Chunk;
import draftwitness.reading.Decimal;
import draftwitness.reading.SessionHeader;
import draftwitness.reading.SessionListener;
import draftwitness.reading.Slice;
import draftwitness.reading.SourceEvent;
import draftwitness.reading.SourceState;
import draftwitness.reading.Step;
import draftwitness.reading.Tap;
import draftwitness.reading.Unit;
import draftwitness.reading.ZeroOffset;
import draftwitness.reading.Zeros;
import draftwitness.recording.Excerpt;
import draftwitness.recording.ExportOptions;
import draftwitness.recording.RecordingFile;
import draftwitness.recording.Series;
import draftwitness.recording.TableExport;
import draftwitness.recording.TableFormat;
import draftwitness.replay.Replayer;
import draftwitness.setup.Setup;
import draftwitness.testkit.Peers;
import draftwitness.testkit.Pty;
import draftwitness.time.Ticker;
import java.io.ByteArrayOutputStream;
import java.io.PrintStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.atomic.AtomicInteger;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;

class ZeroSessionTest {
    private final StopSignal stop = new StopSignal();

    @AfterEach
    void nothingWaitsForTheSignal() {
        stop.finished(0);
        stop.close();
    }

    @TempDir
    Path folder;

    @Test
    @Timeout(60)
    void givenZeroGivenToALiveSession_whenItsRecordingIsRead_thenItIsThere_andReadingsAreAsTheyCame() throws Exception {
        Peers.needPty();
        Path file = folder.resolve("zero.dwrec");
        ZeroOffset zero = new ZeroOffset(Tap.DRAFT_SWITCH, -1.25, 1000, 0.125, 0.0625, 250);
        RecordSwitch recorder = new RecordSwitch();
        RecordSwitch.Run run = recorder.start(file);
        try (Pty pty = new Pty()) {
            CaptureSession session = Sessions.live(
                    new SourcePlanner(DriverCatalog.shipped())
                            .plan(List.of("draft.switch=ascii-line@serial:" + pty.path()), List.of()),
                    Setup.defaults(),
                    stop,
                    List.of(recorder));
            session.start();
            pty.send("\n-5.25\n");
            while (session.health().get(0).readings() < 1) {
                assertThat(session.awaitEnd(20, TimeUnit.MILLISECONDS)).isFalse();
            }
            assertThat(session.zero(zero)).isTrue();
            assertThat(session.zero(ZeroOffset.none(Tap.GAS_INLET, 0))).isFalse(); // nothing is on that tap
            session.stop();
        }
        assertThat(run.awaitFinished(30, TimeUnit.SECONDS)).isTrue();
        Zeros zeros = new Zeros();
        try (RecordingFile recording = RecordingFile.open(file)) {
            // it holds from the oldest slice that was still open, so that no replay takes it off earlier readings
            assertThat(recording.events())
                    .anyMatch(e -> ZeroOffset.in(e).equals(java.util.Optional.of(zero.from(e.timeNanos()))));
            recording.forEachSlice(Long.MIN_VALUE, Long.MAX_VALUE, slice -> {
                zeros.slice(slice);
                slice.blocks().forEach(b -> assertThat(b.value(0)).isEqualTo(-5.25));
            });
        }
        assertThat(zeros.pascals(Tap.DRAFT_SWITCH)).isEqualTo(-1.25);
    }

    /** Keeps each reading told, as the listener it is sees them. */
    private static final class Told implements SessionListener {
        private final boolean raw;
        private final List<String> readings = Collections.synchronizedList(new ArrayList<>());

        Told(boolean raw) {
            this.raw = raw;
        }

        private static String text(long count, int decimals) {
            StringBuilder out = new StringBuilder();
            Decimal.append(out, count, decimals);
            return out.toString();
        }

        @Override
        public boolean takesRaw() {
            return raw;
        }

        @Override
        public void begin(SessionHeader header) {}

        @Override
        public void slice(Slice slice) {
            for (Block b : slice.blocks()) {
                for (int i = 0; i < b.size(); i++) {
                    readings.add(
                            b.timeNanos(i) + " " + text(b.count(i), b.step().decimals()));
                }
            }
        }

        @Override
        public void end() {}
    }

    /** 50 readings a second: 8 s around -1.3 Pa with both ports open, then 4 s of -250.0 Pa. */
    private static Feed openToAirThenDraft() {
        AtomicInteger next = new AtomicInteger();
        return () -> {
            int i = next.getAndIncrement();
            String line = i < 400 ? (i % 2 == 0 ? "-1.3" : i % 4 == 1 ? "-1.2" : "-1.4") : "-250.0";
            byte[] bytes = (line + " Pa\n").getBytes(StandardCharsets.US_ASCII);
            return i >= 600 ? Optional.empty() : Optional.of(new Chunk(bytes, 0, bytes.length, i * 20_000_000L));
        };
    }

    @Test
    @Timeout(60)
    void givenZeroFirst_whenSteady_thenTakenOffLive_replayed_read_andExportedAlike_andTheRecordingStaysRaw()
            throws Exception {
        Path file = folder.resolve("first.dwrec");
        RecordSwitch recorder = new RecordSwitch();
        RecordSwitch.Run run = recorder.start(file);
        Told live = new Told(false);
        Told raw = new Told(true);
        ByteArrayOutputStream words = new ByteArrayOutputStream();
        ZeroFirst zeroFirst = new ZeroFirst(new PrintStream(words, true, StandardCharsets.UTF_8));
        CaptureSession session = new CaptureSession(
                new SourcePlanner(DriverCatalog.shipped())
                        .plan(List.of("draft.switch=ascii-line@file:" + file), List.of()),
                (address, needs, ticker) -> new PacedLink("open to air", openToAirThenDraft(), ticker),
                Ticker.system().scaled(1000),
                "",
                "",
                List.of(recorder, live, raw, zeroFirst));
        zeroFirst.of(session.zeros());
        session.start();
        assertThat(session.awaitEnd(30, TimeUnit.SECONDS)).isTrue();
        session.close();
        assertThat(run.awaitFinished(30, TimeUnit.SECONDS)).isTrue();

        assertThat(words.toString(StandardCharsets.UTF_8)).contains("draft.switch: zero -1.30 Pa", "connect the hoses");
        assertThat(raw.readings).hasSize(600).last(STRING).endsWith(" -250.0");
        assertThat(live.readings).hasSize(600).last(STRING).endsWith(" -248.7"); // -250.0 less -1.3
        assertThat(live.readings.get(0)).endsWith(" -1.3"); // before the zero was taken
        assertThat(session.zeros().status(Tap.DRAFT_SWITCH).pascals()).isEqualTo(-1.3);

        Told replayed = new Told(false);
        Told replayedRaw = new Told(true);
        ByteArrayOutputStream table = new ByteArrayOutputStream();
        ByteArrayOutputStream rawTable = new ByteArrayOutputStream();
        try (RecordingFile recording = RecordingFile.open(file);
                Replayer replayer = new Replayer(recording, Ticker.system(), List.of(replayed, replayedRaw))) {
            replayer.speed(Double.POSITIVE_INFINITY);
            replayer.start();
            replayer.play();
            assertThat(replayer.awaitEnd(30, TimeUnit.SECONDS)).isTrue();
            Channel channel = recording.header().channels().get(0);
            Series series = recording.read(channel, Long.MIN_VALUE, Long.MAX_VALUE, recording.zeros());
            assertThat(series.value(599)).isCloseTo(-248.7, within(1e-9));
            TableExport.toStream(recording, table, TableFormat.CSV, ExportOptions.ALL, p -> true);
            ExportOptions asRead = new ExportOptions(Long.MIN_VALUE, Long.MAX_VALUE, false, true);
            TableExport.toStream(recording, rawTable, TableFormat.CSV, asRead, p -> true);
        }
        assertThat(replayed.readings).isEqualTo(live.readings);
        assertThat(replayedRaw.readings).isEqualTo(raw.readings);
        assertThat(table.toString(StandardCharsets.UTF_8)).endsWith(",-248.7\n");
        assertThat(rawTable.toString(StandardCharsets.UTF_8)).endsWith(",-250.0\n");
    }

    @Test
    void givenZeroTakenLongBeforeRecordingStarts_whenRecorded_thenItIsInTheRecording() throws Exception {
        Channel channel = new Channel(Tap.DRAFT_SWITCH, "s", "pressure", Unit.PASCAL);
        SourceEvent zero = new ZeroOffset(Tap.DRAFT_SWITCH, 2, 50_000_000, 0, 0, 9).event("s", SourceState.LIVE);
        Path file = folder.resolve("late.dwrec");
        RecordSwitch recorder = new RecordSwitch();
        recorder.begin(new SessionHeader(null, "", 100_000, List.of(channel), List.of(), ""));
        RecordSwitch.Run run = null;
        for (int i = 0; i < 2000; i++) {
            run = i == 1500 ? recorder.start(file) : run;
            long[] at = {i * Slice.CELL_NANOS};
            recorder.slice(new Slice(
                    i,
                    List.of(new Block(channel, new Step(Unit.PASCAL, 0), at, new long[] {-100})),
                    i == 0 ? List.of(zero) : List.of()));
        }
        recorder.end();
        assertThat(run).isNotNull();
        assertThat(run.awaitFinished(30, TimeUnit.SECONDS)).isTrue();
        try (RecordingFile recording = RecordingFile.open(file)) {
            assertThat(recording.events()).containsExactly(zero);
            assertThat(recording.zeros().pascals(Tap.DRAFT_SWITCH)).isEqualTo(2);
            assertThat(recording.firstNanos().orElse(-1)).isEqualTo(900 * Slice.CELL_NANOS); // with the minute before
            Path part = folder.resolve("part.dwrec");
            int notes = Excerpt.copy(recording, 1600 * Slice.CELL_NANOS, 1700 * Slice.CELL_NANOS, part, p -> true);
            assertThat(notes).isZero();
            try (RecordingFile excerpt = RecordingFile.open(part)) {
                assertThat(excerpt.zeros().facts()).isEqualTo(recording.zeros().facts());
            }
        }
    }
}
