package draftwitness.recording;

import static org.assertj.core.api.Assertions.assertThat;

import draftwitness.reading.Block;
import draftwitness.reading.Channel;
import draftwitness.reading.SessionHeader;
import draftwitness.reading.Slice;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/** The overview agrees with the readings at every zoom, finished or not. */
class OverviewTest {
    private static final long SECOND = 1_000_000_000;

    @TempDir
    Path folder;

    /** Sums up in the plainest way. */
    private static final class Plain {
        private long readings;
        private double first;
        private double last;
        private double min = Double.MAX_VALUE;
        private double max = -Double.MAX_VALUE;

        void add(double value) {
            first = readings == 0 ? value : first;
            last = value;
            min = Math.min(min, value);
            max = Math.max(max, value);
            readings++;
        }
    }

    private static void check(Overview got, List<Slice> slices, Channel channel, long from, long to) {
        Map<Long, Plain> expected = new TreeMap<>();
        for (Slice slice : slices) {
            for (Block block : slice.blocks()) {
                for (int i = 0; i < block.size() && block.channel().equals(channel); i++) {
                    long begin = Math.floorDiv(block.timeNanos(i), got.widthNanos()) * got.widthNanos();
                    if (begin + got.widthNanos() > from && begin < to) {
                        expected.computeIfAbsent(begin, b -> new Plain()).add(block.value(i));
                    }
                }
            }
        }
        // Whole buckets inside the window are complete; those that reach over its ends may be.
        assertThat(got.size()).isEqualTo(expected.size());
        int i = 0;
        for (Map.Entry<Long, Plain> e : expected.entrySet()) {
            assertThat(got.fromNanos(i)).isEqualTo(e.getKey());
            if (e.getKey() >= from && e.getKey() + got.widthNanos() <= to) {
                Plain p = e.getValue();
                assertThat(got.readings(i)).isEqualTo(p.readings);
                assertThat(got.first(i)).isEqualTo(p.first);
                assertThat(got.last(i)).isEqualTo(p.last);
                assertThat(got.min(i)).isEqualTo(p.min);
                assertThat(got.max(i)).isEqualTo(p.max);
            }
            i++;
        }
    }

    @ParameterizedTest
    @CsvSource({"1, 7", "2, 0", "3, -2000"})
    void givenAnyZoom_whenSummedUp_thenEachBucketIsThatOfItsReadings(long seed, long firstCell) throws Exception {
        SessionHeader header = RandomSessions.header();
        List<Slice> slices = RandomSessions.slow(header, seed, firstCell, 45_000);
        long from = firstCell * Slice.CELL_NANOS;
        long to = from + 4500 * SECOND;
        Path path = RoundTripTest.record(folder.resolve("a.dwrec"), header, slices);
        try (RecordingFile file = RecordingFile.open(path)) {
            for (Channel channel : header.channels()) {
                for (int columns : new int[] {1, 2, 17, 140, 1125, 9000}) {
                    Overview got = file.overview(channel, from, to, columns);
                    assertThat(got.widthNanos()).isLessThanOrEqualTo((to - from) / columns);
                    check(got, slices, channel, from, to);
                }
                check(
                        file.overview(channel, 700 * SECOND, 3000 * SECOND, 70),
                        slices,
                        channel,
                        700 * SECOND,
                        3000 * SECOND);
            }
        }
        assertThat(Verifier.verify(path).damages()).isEmpty();
    }

    @ParameterizedTest
    @ValueSource(ints = {5, 639, 640, 641, 20_480, 25_003})
    void givenARecordingGoingOn_whenSummedUp_thenItReachesToTheLastCommit(int cells) throws Exception {
        SessionHeader header = RandomSessions.header();
        List<Slice> slices = RandomSessions.slow(header, 11, 0, cells);
        Path path = folder.resolve("a.dwrec");
        try (RecordingWriter writer = RecordingWriter.create(path, header);
                RecordingFile file = RecordingFile.open(path)) {
            for (Slice slice : slices) {
                writer.append(slice);
            }
            writer.flush();
            long to = cells * Slice.CELL_NANOS;
            for (Channel channel : header.channels()) {
                check(file.overview(channel, 0, to, 1), slices, channel, 0, to);
                check(file.overview(channel, 0, to, 30), slices, channel, 0, to);
                long count = slices.stream()
                        .flatMap(s -> s.blocks().stream())
                        .filter(b -> b.channel().equals(channel))
                        .mapToLong(Block::size)
                        .sum();
                assertThat(file.readings(channel)).isEqualTo(count);
            }
            assertThat(Verifier.verify(path).damages()).isEmpty();
        }
        assertThat(Verifier.verify(path).damages()).isEmpty();
    }

    @Test
    void givenABrokenOverview_whenSummedUp_thenTheReadingsAreUsedAndVerifyNamesIt() throws Exception {
        SessionHeader header = RandomSessions.header();
        List<Slice> slices = RandomSessions.slow(header, 12, 0, 25_000);
        Path path = RoundTripTest.record(folder.resolve("a.dwrec"), header, slices);
        for (String command : new String[] {
            "UPDATE overview_1 SET payload = x'00' WHERE first_cell = 0",
            "DELETE FROM overview_0 WHERE first_cell = 1280"
        }) {
            DamageTest.sql(path, command);
            assertThat(Verifier.verify(path).damages())
                    .singleElement()
                    .satisfies(d -> assertThat(d.part()).isEqualTo(Damage.Part.OVERVIEW));
            try (RecordingFile file = RecordingFile.open(path)) {
                Channel channel = header.channels().get(0);
                check(file.overview(channel, 0, 2500 * SECOND, 60), slices, channel, 0, 2500 * SECOND);
            }
        }
    }
}
