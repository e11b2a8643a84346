package draftwitness.recording;

import static org.assertj.core.api.Assertions.assertThat;

import draftwitness.reading.SessionHeader;
import draftwitness.reading.Slice;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** The n-th growth of the file fails, for every n until none does; and a small file is cut at every byte. */
class FaultLoopTest {
    private static final SessionHeader HEADER = RandomSessions.header();
    private static final List<Slice> SLICES = RandomSessions.slow(HEADER, 31, 0, 3000);

    @TempDir
    Path folder;

    @Test
    void givenRoomForSoManyPages_whenRecording_thenEverythingCommittedComesBackAndNothingElse() throws Exception {
        boolean complete = false;
        int failures = 0;
        for (int pages = 15; !complete; pages++) {
            Path path = folder.resolve(pages + ".dwrec");
            long safe = Long.MIN_VALUE;
            RecordingWriter writer = RecordingWriter.create(path, HEADER);
            writer.database().execute("PRAGMA max_page_count=" + pages);
            try {
                for (Slice slice : SLICES) {
                    writer.append(slice);
                }
                writer.close();
                complete = true;
            } catch (RecordingException e) {
                assertThat(e.kind()).as("%d pages", pages).isEqualTo(RecordingException.Kind.DISK_FULL);
                failures++;
            } finally {
                safe = Math.max(safe, writer.committedNanos());
                writer.close();
            }
            assertThat(Verifier.verify(path).damages()).as("%d pages", pages).isEmpty();
            try (RecordingFile file = RecordingFile.open(path)) {
                List<Slice> got = RoundTripTest.replay(file);
                assertThat(got.size() * Slice.CELL_NANOS).as("%d pages", pages).isEqualTo(Math.max(0, safe));
                assertThat(got.equals(SLICES.subList(0, got.size())))
                        .as("%d pages", pages)
                        .isTrue();
                assertThat(file.finished()).isEqualTo(complete);
            }
        }
        assertThat(failures).isGreaterThan(5);
    }

    /** Every byte with {@code -Dcut.step=1}; else every seventh, which comes to every place of a page in turn. */
    private static final int CUT_STEP = Integer.getInteger("cut.step", 7);

    @Test
    void givenASmallFinishedFileCutAnywhere_whenOpened_thenItIsNamedOrWholeAndNothingIsInvented() throws Exception {
        List<Slice> few = SLICES.subList(0, 136);
        byte[] good = Files.readAllBytes(RoundTripTest.record(folder.resolve("good.dwrec"), HEADER, few));
        Path path = folder.resolve("cut.dwrec");
        for (int length = 0; length < good.length; length += CUT_STEP) {
            Files.write(path, Arrays.copyOf(good, length));
            List<Slice> got = new ArrayList<>();
            try (RecordingFile file = RecordingFile.open(path)) {
                file.forEachSlice(Long.MIN_VALUE, Long.MAX_VALUE, got::add);
                assertThat(got).as("cut to %d", length).hasSize(few.size());
            } catch (RecordingException e) {
                assertThat(e.getMessage()).as("cut to %d", length).doesNotContain("\n");
            }
            assertThat(got.equals(few.subList(0, got.size())))
                    .as("cut to %d", length)
                    .isTrue();
        }
    }

    @Test
    void givenAFlippedByteInTheLogsHeaders_whenOpened_thenOnlyAPrefixOfWholeCommitsIsThere() throws Exception {
        Path source = folder.resolve("source.dwrec");
        List<Slice> few = SLICES.subList(0, 6 * RecordingWriter.CELLS_A_COMMIT);
        byte[] main;
        byte[] log;
        try (RecordingWriter writer = RecordingWriter.create(source, HEADER)) {
            for (Slice slice : few) {
                writer.append(slice);
            }
            main = Files.readAllBytes(source);
            log = Files.readAllBytes(Database.beside(source, "-wal"));
        }
        Path path = folder.resolve("flipped.dwrec");
        int frame = 24 + Schema.PAGE_BYTES;
        for (int at = 0; at < log.length; at += (at < 32 ? 1 : (at - 32) % frame < 23 ? 1 : frame - 23)) {
            byte[] bad = log.clone();
            bad[at] ^= 0x10;
            Files.write(path, main);
            Files.write(Database.beside(path, "-wal"), bad);
            Files.deleteIfExists(Database.beside(path, "-shm"));
            try (RecordingFile file = RecordingFile.open(path)) {
                List<Slice> got = RoundTripTest.replay(file);
                assertThat(got.size() % RecordingWriter.CELLS_A_COMMIT)
                        .as("byte %d of the log", at)
                        .isZero();
                assertThat(got.equals(few.subList(0, got.size())))
                        .as("byte %d of the log", at)
                        .isTrue();
            }
        }
    }

    @Test
    void givenCopiesMadeMidWayAndSeveralReaders_whenRecordingGoesOn_thenAllSeeWholeCommits() throws Exception {
        Path source = folder.resolve("source.dwrec");
        Path copy = folder.resolve("copy.dwrec");
        try (RecordingWriter writer = RecordingWriter.create(source, HEADER)) {
            assertThat(Verifier.verify(source).finished()).isFalse();
            try (RecordingFile one = RecordingFile.open(source);
                    RecordingFile two = RecordingFile.open(source)) {
                for (Slice slice : SLICES.subList(0, 1600)) {
                    writer.append(slice);
                    if (slice.index() % 160 == 159) {
                        Files.copy(source, copy, StandardCopyOption.REPLACE_EXISTING);
                        Files.copy(
                                Database.beside(source, "-wal"),
                                Database.beside(copy, "-wal"),
                                StandardCopyOption.REPLACE_EXISTING);
                        assertThat(Verifier.verify(copy).damages()).isEmpty();
                        for (RecordingFile reader : List.of(one, two)) {
                            assertThat(RoundTripTest.replay(reader).size()).isEqualTo((int) slice.index() + 1);
                        }
                        try (RecordingFile third = RecordingFile.open(copy)) {
                            assertThat(RoundTripTest.replay(third).equals(SLICES.subList(0, (int) slice.index() + 1)))
                                    .isTrue();
                        }
                    }
                }
            }
        }
        assertThat(RoundTripTest.filesIn(folder)).contains(source).doesNotContain(Database.beside(source, "-wal"));
    }

    @Test
    void givenALogCutAnywhere_whenOpened_thenAPrefixOfWholeCommitsIsThere() throws Exception {
        Path source = folder.resolve("source.dwrec");
        byte[] main;
        byte[] log;
        int all = 12 * RecordingWriter.CELLS_A_COMMIT;
        List<Slice> few = SLICES.subList(0, all);
        try (RecordingWriter writer = RecordingWriter.create(source, HEADER)) {
            for (Slice slice : few) {
                writer.append(slice);
            }
            main = Files.readAllBytes(source);
            log = Files.readAllBytes(Database.beside(source, "-wal"));
        }
        Path path = folder.resolve("cut.dwrec");
        int before = 0;
        for (int length = 1;
                before < all;
                length = Math.min(log.length, length + (CUT_STEP == 1 || length % 1048 < 60 ? 1 : 97))) {
            Files.write(path, main);
            Files.write(Database.beside(path, "-wal"), Arrays.copyOf(log, length));
            Files.deleteIfExists(Database.beside(path, "-shm"));
            try (RecordingFile file = RecordingFile.open(path)) {
                List<Slice> got = RoundTripTest.replay(file);
                assertThat(got.size() % RecordingWriter.CELLS_A_COMMIT)
                        .as("log cut to %d", length)
                        .isZero();
                assertThat(got.size()).as("log cut to %d", length).isGreaterThanOrEqualTo(before);
                assertThat(got.equals(few.subList(0, got.size())))
                        .as("log cut to %d", length)
                        .isTrue();
                assertThat(length < log.length || got.size() == all).isTrue();
                before = got.size();
            }
        }
    }
}
