package draftwitness.recording;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import draftwitness.reading.Block;
import draftwitness.reading.Channel;
import draftwitness.reading.SessionHeader;
import draftwitness.reading.Slice;
import draftwitness.reading.SourceEvent;
import java.io.IOException;
import java.nio.charset.Charset;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/** What is recorded comes back as it was. */
class RoundTripTest {
    @TempDir
    Path folder;

    static Path record(Path file, SessionHeader header, List<Slice> slices) throws RecordingException {
        try (RecordingWriter writer = RecordingWriter.create(file, header)) {
            for (Slice slice : slices) {
                writer.append(slice);
            }
        }
        return file;
    }

    static List<Path> filesIn(Path folder) throws IOException {
        try (Stream<Path> files = Files.list(folder)) {
            return files.sorted().toList();
        }
    }

    static List<Slice> replay(RecordingFile file) throws RecordingException {
        List<Slice> slices = new ArrayList<>();
        file.forEachSlice(Long.MIN_VALUE, Long.MAX_VALUE, slices::add);
        return slices;
    }

    @ParameterizedTest
    @ValueSource(longs = {1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12, 13, 14, 15, 16, 17, 18, 19, 20})
    void givenAnySession_whenRecordedAndReplayed_thenTheSlicesAreEqual(long seed) throws Exception {
        SessionHeader header = RandomSessions.header();
        List<Slice> slices = RandomSessions.slices(header, seed, seed % 5 == 0 ? -7 : seed * 1000, 300);
        Path path = record(folder.resolve("a.dwrec"), header, slices);
        try (RecordingFile file = RecordingFile.open(path)) {
            assertThat(file.header()).isEqualTo(header);
            assertThat(file.finished()).isTrue();
            assertThat(replay(file)).as("seed %d", seed).isEqualTo(slices);
        }
        assertThat(filesIn(folder)).containsExactly(path);
    }

    @ParameterizedTest
    @CsvSource({"1, 0, 30000000000", "2, 3000000000, 7000000000", "3, 12345000000, 12345000001", "4, -5, 100000000"})
    void givenAWindow_whenReadAsSeries_thenItHoldsTheReadingsOfThatWindow(long seed, long from, long to)
            throws Exception {
        SessionHeader header = RandomSessions.header();
        List<Slice> slices = RandomSessions.slices(header, seed, 0, 300);
        try (RecordingFile file = RecordingFile.open(record(folder.resolve("a.dwrec"), header, slices))) {
            for (Channel channel : header.channels()) {
                List<Long> times = new ArrayList<>();
                List<Double> values = new ArrayList<>();
                readings(slices, channel, from, to, times, values);
                Series series = file.read(channel, from, to);
                assertThat(series.timesNanos()).containsExactly(times.toArray(Long[]::new));
                assertThat(series.values()).containsExactly(values.toArray(Double[]::new));
            }
        }
    }

    private static void readings(
            List<Slice> slices, Channel channel, long from, long to, List<Long> times, List<Double> values) {
        for (Slice slice : slices) {
            for (Block block : slice.blocks()) {
                for (int i = 0; i < block.size() && block.channel().equals(channel); i++) {
                    if (block.timeNanos(i) >= from && block.timeNanos(i) < to) {
                        times.add(block.timeNanos(i));
                        values.add(block.value(i));
                    }
                }
            }
        }
    }

    @Test
    void givenARecording_whenAskedForCounts_thenTheyAreThoseOfItsSlices() throws Exception {
        SessionHeader header = RandomSessions.header();
        List<Slice> slices = RandomSessions.slices(header, 77, 5, 400);
        try (RecordingFile file = RecordingFile.open(record(folder.resolve("a.dwrec"), header, slices))) {
            long first = Long.MAX_VALUE;
            long last = Long.MIN_VALUE;
            for (Channel channel : header.channels()) {
                long count = 0;
                for (Slice slice : slices) {
                    for (Block block : slice.blocks()) {
                        first = Math.min(first, block.firstNanos());
                        last = Math.max(last, block.lastNanos());
                        count += block.channel().equals(channel) ? block.size() : 0;
                    }
                }
                assertThat(file.readings(channel)).isEqualTo(count);
            }
            assertThat(file.firstNanos()).hasValue(first);
            assertThat(file.lastNanos()).hasValue(last);
            List<SourceEvent> events =
                    slices.stream().flatMap(s -> s.events().stream()).toList();
            assertThat(file.events()).isEqualTo(events).isNotEmpty();
            assertThat(file.firstCell()).hasValue(5);
            assertThat(file.endCell()).hasValue(405);
        }
    }

    @Test
    void givenAStartInTheMiddle_whenReplayed_thenTheSlicesFromThereOnAreEqual() throws Exception {
        SessionHeader header = RandomSessions.header();
        List<Slice> slices = RandomSessions.slices(header, 5, 0, 300);
        try (RecordingFile file = RecordingFile.open(record(folder.resolve("a.dwrec"), header, slices))) {
            for (int first : new int[] {0, 1, 9, 10, 11, 155, 299}) {
                List<Slice> got = new ArrayList<>();
                file.forEachSlice(first * Slice.CELL_NANOS, 250 * Slice.CELL_NANOS, got::add);
                assertThat(got).isEqualTo(slices.subList(first, Math.max(first, 250)));
            }
        }
    }

    @Test
    void givenAnOpenRecording_whenReadBySeveral_thenEachSeesWhatWasCommittedAndOneFileIsLeft() throws Exception {
        SessionHeader header = RandomSessions.header();
        List<Slice> slices = RandomSessions.slices(header, 8, 0, 200);
        Path path = folder.resolve("a.dwrec");
        RecordingWriter writer = RecordingWriter.create(path, header);
        try (RecordingFile first = RecordingFile.open(path);
                RecordingFile second = RecordingFile.open(path)) {
            SliceCursor following = first.slices();
            for (int i = 0; i < 200; i++) {
                writer.append(slices.get(i));
                if (i % 37 == 0) {
                    int committed = (i + 1) / RecordingWriter.CELLS_A_COMMIT * RecordingWriter.CELLS_A_COMMIT;
                    assertThat(replay(second)).isEqualTo(slices.subList(0, committed));
                }
                if (i % 40 == 39) { // a whole number of commits
                    for (int k = i - 39; k <= i; k++) {
                        assertThat(following.next()).isEqualTo(slices.get(k));
                    }
                    assertThat(following.next()).isNull();
                }
            }
            assertThat(first.finished()).isFalse();
            writer.close();
            assertThat(first.finished()).isTrue();
            assertThat(replay(first)).isEqualTo(slices);
            assertThat(filesIn(folder)).containsExactly(path);
        }
    }

    @Test
    void givenACopyMadeWhileRecording_whenOpened_thenItHoldsWhatWasCommitted() throws Exception {
        SessionHeader header = RandomSessions.header();
        List<Slice> slices = RandomSessions.slices(header, 9, 0, 105);
        Path path = folder.resolve("a.dwrec");
        Path both = folder.resolve("both.dwrec");
        Path bare = folder.resolve("bare.dwrec");
        try (RecordingWriter writer = RecordingWriter.create(path, header)) {
            for (Slice slice : slices) {
                writer.append(slice);
            }
            copy(path, both);
            copy(path, bare);
            copy(Database.beside(path, "-wal"), Database.beside(both, "-wal"));
        }
        try (RecordingFile file = RecordingFile.open(both)) {
            assertThat(replay(file)).isEqualTo(slices.subList(0, 104));
            assertThat(file.finished()).isFalse();
        }
        try (RecordingFile file = RecordingFile.open(bare)) {
            List<Slice> got = replay(file);
            assertThat(got).isEqualTo(slices.subList(0, got.size()));
            assertThat(file.header()).isEqualTo(header);
        }
    }

    /** By streams, as a file manager would; never by the database. */
    private static void copy(Path from, Path to) throws Exception {
        Files.copy(from, to);
    }

    @Test
    void givenAFinishedFile_whenRead_thenItsBytesAndFolderStayAsTheyWere() throws Exception {
        SessionHeader header = RandomSessions.header();
        // A system whose locale is plain ASCII cannot name a file with an umlaut.
        boolean umlaut = Charset.forName(System.getProperty("sun.jnu.encoding"))
                .newEncoder()
                .canEncode('\u00e4');
        Path path = record(
                folder.resolve("a ?#%41" + (umlaut ? "\u00e4" : "") + ".dwrec"),
                header,
                RandomSessions.slices(header, 3, 0, 100));
        byte[] before = Files.readAllBytes(path);
        try (RecordingFile file = RecordingFile.open(path)) {
            replay(file);
            file.readings(header.channels().get(0));
            assertThat(filesIn(folder)).containsExactly(path);
        }
        assertThat(Files.readAllBytes(path)).isEqualTo(before);
        assertThat(filesIn(folder)).containsExactly(path);
    }

    @Test
    void givenAReadingThatWouldNotComeBack_whenAppended_thenItIsRefusedAndTheRecordingGoesOn() throws Exception {
        SessionHeader header = RandomSessions.header(1_000_000);
        Channel channel = header.channels().get(0);
        draftwitness.reading.Step step = new draftwitness.reading.Step(channel.unit(), 1);
        Path path = folder.resolve("a.dwrec");
        Slice offStep = slice(0, new Block(channel, step, new long[] {1}, new long[] {1}));
        Slice early = slice(0, new Block(channel, step, new long[] {100_000_000}, new long[] {1}));
        Slice good = slice(0, new Block(channel, step, new long[] {5_000_000}, new long[] {1}));
        Slice again = slice(1, new Block(channel, step, new long[] {5_000_000}, new long[] {1}));
        try (RecordingWriter writer = RecordingWriter.create(path, header)) {
            for (Slice bad : List.of(offStep, early)) {
                assertThatThrownBy(() -> writer.append(bad)).isInstanceOf(IllegalArgumentException.class);
            }
            writer.append(good);
            for (Slice bad : List.of(again, slice(2), slice(0))) {
                assertThatThrownBy(() -> writer.append(bad)).isInstanceOf(IllegalArgumentException.class);
            }
            writer.append(slice(1));
        }
        try (RecordingFile file = RecordingFile.open(path)) {
            assertThat(replay(file)).containsExactly(good, slice(1));
        }
    }

    private static Slice slice(long index, Block... blocks) {
        return new Slice(index, List.of(blocks), List.of());
    }
}
