package draftwitness.recording;

import static org.assertj.core.api.Assertions.assertThat;

import draftwitness.reading.SessionHeader;
import draftwitness.reading.Slice;
import java.nio.file.Files;
import java.nio.file.Path;
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
        for (int length = 1; before < all; length = Math.min(log.length, length + (length % 1048 < 60 ? 1 : 97))) {
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
