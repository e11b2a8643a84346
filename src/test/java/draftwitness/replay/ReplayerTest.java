package draftwitness.replay;

import static org.assertj.core.api.Assertions.assertThat;

import draftwitness.reading.Block;
import draftwitness.reading.Channel;
import draftwitness.reading.SessionHeader;
import draftwitness.reading.SessionListener;
import draftwitness.reading.Slice;
import draftwitness.reading.Step;
import draftwitness.reading.Tap;
import draftwitness.reading.Unit;
import draftwitness.recording.RecordingFile;
import draftwitness.recording.RecordingWriter;
import draftwitness.time.Ticker;
import java.nio.file.Path;
import java.time.Instant;
import java.util.List;
import java.util.concurrent.LinkedBlockingQueue;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.atomic.AtomicLong;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;

@Timeout(30)
class ReplayerTest {
    private static final int SLICES = 100;
    private static final Channel DRAFT = new Channel(Tap.DRAFT_SWITCH, "a", "pressure", Unit.PASCAL);

    @TempDir
    Path folder;

    /** Time that stands still until the test moves it; waiting on it lasts a real moment at most. */
    private static final class HandClock implements Ticker {
        private final AtomicLong nanos = new AtomicLong();

        @Override
        public long nanos() {
            return nanos.get();
        }

        @Override
        public Instant wallClock() {
            return Instant.EPOCH;
        }

        @Override
        public long realNanos(long tickerNanos) {
            return Math.min(tickerNanos, 1_000_000);
        }
    }

    private final HandClock clock = new HandClock();
    private final LinkedBlockingQueue<Long> played = new LinkedBlockingQueue<>();
    private RecordingFile file;
    private Replayer replayer;

    @BeforeEach
    void record() throws Exception {
        Path path = folder.resolve("a.dwrec");
        SessionHeader header = new SessionHeader(null, "", 100_000, List.of(DRAFT), List.of(), "");
        try (RecordingWriter writer = RecordingWriter.create(path, header)) {
            for (int i = 0; i < SLICES; i++) {
                long time = i * Slice.CELL_NANOS + 5_000_000;
                writer.append(new Slice(
                        i,
                        List.of(new Block(DRAFT, new Step(Unit.PASCAL, 1), new long[] {time}, new long[] {-i})),
                        List.of()));
            }
        }
        file = RecordingFile.open(path);
        replayer = new Replayer(file, clock, List.of(new SessionListener() {
            @Override
            public void begin(SessionHeader begun) {
                played.add(-1L);
            }

            @Override
            public void slice(Slice slice) {
                played.add(slice.index());
            }

            @Override
            public void end() {
                played.add(-2L);
            }
        }));
        replayer.start();
        assertThat(next()).isEqualTo(-1); // the session begins, paused
    }

    @AfterEach
    void close() throws Exception {
        replayer.close();
        file.close();
    }

    private long next() throws InterruptedException {
        Long index = played.poll(10, TimeUnit.SECONDS);
        assertThat(index).isNotNull();
        return index;
    }

    private void nothingComes() throws InterruptedException {
        assertThat(played.poll(100, TimeUnit.MILLISECONDS)).isNull();
    }

    @Test
    void givenPaused_whenTimePasses_thenNothingIsPlayed() throws Exception {
        clock.nanos.set(5_000_000_000L);
        nothingComes();
    }

    @Test
    void givenPlaying_whenTimePasses_thenEachSliceAtItsEnd_andTwiceAsManyAtDoubleSpeed() throws Exception {
        replayer.play();
        clock.nanos.set(250_000_000);
        assertThat(next()).isEqualTo(0);
        assertThat(next()).isEqualTo(1);
        nothingComes();
        replayer.speed(2);
        clock.nanos.addAndGet(200_000_000);
        for (long i = 2; i < 6; i++) {
            assertThat(next()).isEqualTo(i);
        }
        nothingComes();
        assertThat(replayer.positionNanos()).isEqualTo(600_000_000);
    }

    @Test
    void givenPausedInTheMiddle_whenPlayedAgain_thenItGoesOnWhereItWas() throws Exception {
        replayer.play();
        clock.nanos.set(100_000_000);
        assertThat(next()).isEqualTo(0);
        replayer.pause();
        clock.nanos.set(9_000_000_000L);
        nothingComes();
        replayer.play();
        nothingComes();
        clock.nanos.addAndGet(100_000_000);
        assertThat(next()).isEqualTo(1);
    }

    @Test
    void givenSeeks_whenPlaying_thenTheSessionBeginsAnewFromThere_alsoFromTheEnd() throws Exception {
        replayer.speed(Double.POSITIVE_INFINITY);
        replayer.seek(5_030_000_000L);
        assertThat(next()).isEqualTo(-1);
        replayer.play();
        for (long i = 50; i < SLICES; i++) {
            assertThat(next()).isEqualTo(i);
        }
        assertThat(replayer.awaitEnd(10, TimeUnit.SECONDS)).isTrue();
        replayer.seek(-5);
        assertThat(next()).isEqualTo(-1);
        assertThat(next()).isEqualTo(0);
        replayer.seek(Long.MAX_VALUE / 2);
        long index = next();
        while (index != -1) { // what was under way
            index = next();
        }
        nothingComes();
        assertThat(replayer.positionNanos()).isEqualTo(SLICES * Slice.CELL_NANOS);
    }
}
