package draftwitness.recording;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import draftwitness.reading.SessionHeader;
import draftwitness.reading.Slice;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** What is good of a damaged file is saved, nothing is invented, and the result is a good file. */
class RepairTest {
    private static final SessionHeader HEADER = RandomSessions.header();
    private static final List<Slice> SLICES = RandomSessions.slow(HEADER, 21, 0, 4000);

    @TempDir
    Path folder;

    private Path path;
    private Path target;

    @BeforeEach
    void record() throws Exception {
        path = RoundTripTest.record(folder.resolve("a.dwrec"), HEADER, SLICES);
        target = folder.resolve("saved.dwrec");
    }

    /** Repairs and compares; returns how many cells are as they were. */
    private int repair(boolean headerMustBeRight) throws Exception {
        Files.deleteIfExists(target);
        Repair repair = Repair.run(path, target);
        assertThat(Verifier.verify(target).damages()).isEmpty();
        int good = 0;
        try (RecordingFile file = RecordingFile.open(target)) {
            if (headerMustBeRight || repair.headerIntact()) {
                assertThat(file.header()).isEqualTo(HEADER);
            }
            List<Slice> got = RoundTripTest.replay(file);
            List<Thinned> lost = file.lost();
            int first = got.isEmpty() ? 0 : (int) got.get(0).index();
            for (Slice slice : got) {
                Slice original = SLICES.get((int) slice.index());
                long begin = slice.index() * Slice.CELL_NANOS;
                boolean gone = lost.stream().anyMatch(t -> begin >= t.fromNanos() && begin < t.toNanos());
                if (headerMustBeRight || repair.headerIntact()) {
                    assertThat(slice.blocks()).isEqualTo(gone ? List.of() : original.blocks());
                }
                good += gone ? 0 : 1;
            }
            assertThat(first).isNotNegative();
        }
        return good;
    }

    @Test
    void givenAGoodFile_whenRepaired_thenItIsTheSame() throws Exception {
        assertThat(repair(true)).isEqualTo(SLICES.size());
        try (RecordingFile file = RecordingFile.open(target)) {
            assertThat(RoundTripTest.replay(file)).isEqualTo(SLICES);
            assertThat(file.lost()).isEmpty();
        }
    }

    @Test
    void givenADamagedRow_whenRepaired_thenAllOthersAreSavedAndTheHoleIsTold() throws Exception {
        DamageTest.sql(path, "UPDATE stretch SET crc32c = 0 WHERE first_cell = 640");
        assertThat(repair(true)).isGreaterThanOrEqualTo(SLICES.size() - 640);
        Repair.run(path, folder.resolve("b.dwrec"));
        try (RecordingFile file = RecordingFile.open(folder.resolve("b.dwrec"))) {
            List<Slice> got = RoundTripTest.replay(file);
            assertThat(got.subList(1280, 4000)).isEqualTo(SLICES.subList(1280, 4000));
        }
    }

    @Test
    void givenADestroyedFirstPage_whenRepaired_thenHeaderAndRowsComeFromThePages() throws Exception {
        byte[] bytes = Files.readAllBytes(path);
        Arrays.fill(bytes, 0, Schema.PAGE_BYTES, (byte) 0x55);
        Files.write(path, bytes);
        assertThatThrownBy(() -> RecordingFile.open(path)).isInstanceOf(RecordingException.class);
        assertThat(repair(true)).isEqualTo(SLICES.size());
    }

    @Test
    void givenDestroyedPagesAnywhere_whenRepaired_thenTheRestIsSaved() throws Exception {
        byte[] good = Files.readAllBytes(path);
        int pages = good.length / Schema.PAGE_BYTES;
        Random random = new Random(3);
        int withoutHeader = 0;
        long saved = 0;
        int runs = 0;
        for (int page = 0; page < pages; page++) {
            byte[] bad = good.clone();
            byte[] noise = new byte[Schema.PAGE_BYTES];
            random.nextBytes(noise);
            System.arraycopy(noise, 0, bad, page * Schema.PAGE_BYTES, noise.length);
            Files.write(path, bad);
            try {
                saved += repair(false);
                runs++;
            } catch (RecordingException e) {
                withoutHeader++; // the one page that the header is in
            }
        }
        assertThat(withoutHeader).isLessThanOrEqualTo(4);
        assertThat((double) saved / runs / SLICES.size())
                .isGreaterThan(0.8); // a page may hold parts of two rows of seven
    }

    @Test
    void givenACutFile_whenRepaired_thenWhatIsBeforeTheCutIsSaved() throws Exception {
        byte[] good = Files.readAllBytes(path);
        Files.write(path, Arrays.copyOf(good, good.length * 2 / 3));
        assertThat(repair(true)).isGreaterThan(SLICES.size() / 3);
    }

    @Test
    void givenSomethingElse_whenRepaired_thenNothingIsLeft() throws Exception {
        Files.writeString(path, "not a recording".repeat(1000));
        assertThatThrownBy(() -> Repair.run(path, target))
                .isInstanceOf(RecordingException.class)
                .hasMessageContaining("header");
        assertThat(RoundTripTest.filesIn(folder)).containsExactly(path);
    }
}
