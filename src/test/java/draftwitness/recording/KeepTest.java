package draftwitness.recording;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import draftwitness.reading.Channel;
import draftwitness.reading.SessionHeader;
import draftwitness.reading.Slice;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Unattended recording keeps full rate where somebody claimed it, and the overview of all the rest. */
class KeepTest {
    private static final long SECOND = 1_000_000_000;
    private static final SessionHeader HEADER = RandomSessions.header();
    private static final int CELLS = 30_000;

    @TempDir
    Path folder;

    @Test
    void givenAClaimedSpan_whenTheRestIsThinned_thenItStaysWithItsMarginsAndTheOverviewIsWhole() throws Exception {
        List<Slice> slices = RandomSessions.slow(HEADER, 3, 0, CELLS);
        Path all = RoundTripTest.record(folder.resolve("all.dwrec"), HEADER, slices);
        Path path = folder.resolve("a.dwrec");
        KeepPolicy policy = new KeepPolicy(300 * SECOND, 60 * SECOND, Long.MAX_VALUE);
        try (RecordingWriter writer = RecordingWriter.create(path, HEADER, policy)) {
            for (Slice slice : slices) {
                if (slice.index() == 11_000) { // found two minutes after it began
                    writer.claim(980 * SECOND, 1010 * SECOND);
                }
                writer.append(slice);
            }
        }
        assertThat(Verifier.verify(path).damages()).isEmpty();
        assertThat(Files.size(path)).isLessThan(Files.size(all));
        try (RecordingFile file = RecordingFile.open(path);
                RecordingFile whole = RecordingFile.open(all)) {
            List<Slice> got = RoundTripTest.replay(file);
            assertThat(got).hasSize(CELLS);
            List<Thinned> thinned = file.thinned();
            assertThat(thinned).hasSize(2);
            assertThat(thinned.get(0).fromNanos()).isZero();
            assertThat(thinned.get(0).toNanos()).isBetween(850 * SECOND, 920 * SECOND);
            assertThat(thinned.get(1).fromNanos()).isBetween(1070 * SECOND, 1140 * SECOND);
            assertThat(thinned.get(1).toNanos()).isBetween(2600 * SECOND, 2700 * SECOND);
            long missing = 0;
            for (int i = 0; i < CELLS; i++) {
                long begin = i * Slice.CELL_NANOS;
                boolean gone = thinned.stream().anyMatch(t -> begin >= t.fromNanos() && begin < t.toNanos());
                assertThat(got.get(i).events()).isEqualTo(slices.get(i).events());
                assertThat(got.get(i).blocks())
                        .isEqualTo(gone ? List.of() : slices.get(i).blocks());
                missing += gone
                        ? slices.get(i).blocks().stream()
                                .mapToLong(b -> b.size())
                                .sum()
                        : 0;
            }
            assertThat(thinned.stream().mapToLong(Thinned::readings).sum()).isEqualTo(missing);
            for (Channel channel : HEADER.channels()) {
                Overview a = file.overview(channel, 0, CELLS * Slice.CELL_NANOS, 50);
                Overview b = whole.overview(channel, 0, CELLS * Slice.CELL_NANOS, 50);
                assertThat(a.size()).isEqualTo(b.size());
                for (int i = 0; i < a.size(); i++) {
                    assertThat(a.min(i)).isEqualTo(b.min(i));
                    assertThat(a.max(i)).isEqualTo(b.max(i));
                    assertThat(a.readings(i)).isEqualTo(b.readings(i));
                }
                assertThat(file.readings(channel)).isEqualTo(whole.readings(channel));
            }
        }
    }

    @Test
    void givenABudgetBelowTheMemory_whenItIsReached_thenRecordingEndsInGoodOrderWithOneLine() throws Exception {
        List<Slice> slices = RandomSessions.slow(HEADER, 4, 0, CELLS);
        Path path = folder.resolve("a.dwrec");
        RecordingWriter writer = RecordingWriter.create(path, HEADER, new KeepPolicy(Long.MAX_VALUE / 2, 0, 60_000));
        assertThatThrownBy(() -> {
                    for (Slice slice : slices) {
                        writer.append(slice);
                    }
                })
                .isInstanceOf(RecordingException.class)
                .hasMessageContaining("budget is used up");
        writer.close();
        Verification verification = Verifier.verify(path);
        assertThat(verification.damages()).isEmpty();
        assertThat(verification.finished()).isTrue();
        assertThat(verification.thinned()).isEmpty();
        try (RecordingFile file = RecordingFile.open(path)) {
            List<Slice> got = RoundTripTest.replay(file);
            assertThat(got.size()).isGreaterThan(1000);
            assertThat(got.equals(slices.subList(0, got.size()))).isTrue();
        }
    }

    @Test
    void givenABudget_whenClaimsWouldBreakIt_thenTheOldestAreThinnedAndTheMemoryStays() throws Exception {
        List<Slice> slices = RandomSessions.slow(HEADER, 4, 0, CELLS);
        Path path = folder.resolve("a.dwrec");
        long budget = 150_000;
        KeepPolicy policy = new KeepPolicy(200 * SECOND, 0, budget);
        try (RecordingWriter writer = RecordingWriter.create(path, HEADER, policy)) {
            writer.claim(0, CELLS * Slice.CELL_NANOS);
            for (Slice slice : slices) {
                writer.append(slice);
            }
        }
        assertThat(Verifier.verify(path).damages()).isEmpty();
        assertThat(Files.size(path)).isLessThan(budget + 40_000); // and a minute of small rows
        try (RecordingFile file = RecordingFile.open(path)) {
            List<Thinned> thinned = file.thinned();
            assertThat(thinned).hasSize(1);
            assertThat(thinned.get(0).fromNanos()).isZero();
            List<Slice> got = RoundTripTest.replay(file);
            int full = (int) (thinned.get(0).toNanos() / Slice.CELL_NANOS);
            assertThat(full).isLessThan(CELLS - 2000);
            assertThat(got.subList(full, CELLS).equals(slices.subList(full, CELLS)))
                    .isTrue();
        }
    }
}
