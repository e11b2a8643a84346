package draftwitness.recording;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import draftwitness.reading.SessionHeader;
import draftwitness.reading.Slice;
import draftwitness.recording.RecordingException.Kind;
import java.nio.file.Files;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.DriverManager;
import java.sql.Statement;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** Damage is named, never shown as readings, and never an unexpected exception. */
class DamageTest {
    private static final SessionHeader HEADER = RandomSessions.header();
    private static final List<Slice> SLICES = RandomSessions.slow(HEADER, 6, 0, 2000);

    @TempDir
    Path folder;

    private Path path;

    @BeforeEach
    void record() throws Exception {
        path = RoundTripTest.record(folder.resolve("a.dwrec"), HEADER, SLICES);
    }

    private void sql(String... commands) throws Exception {
        sql(path, commands);
    }

    static void sql(Path path, String... commands) throws Exception {
        try (Connection c = DriverManager.getConnection("jdbc:sqlite:" + path);
                Statement s = c.createStatement()) {
            for (String command : commands) {
                s.execute(command);
            }
        }
    }

    @Test
    void givenAGoodFile_whenVerified_thenItIsIntactAndCounted() throws Exception {
        Verification v = Verifier.verify(path);
        assertThat(v.damages()).isEmpty();
        assertThat(v.intact()).isTrue();
        assertThat(v.finished()).isTrue();
        assertThat(v.endNanos()).isEqualTo(2000 * Slice.CELL_NANOS);
        long readings = SLICES.stream()
                .flatMap(s -> s.blocks().stream())
                .mapToLong(b -> b.size())
                .sum();
        assertThat(v.readings()).isEqualTo(readings);
    }

    @Test
    void givenAFlippedPayload_whenVerified_thenRowAndSpanAreNamedAndReadingThereFails() throws Exception {
        sql("UPDATE stretch SET payload = substr(payload, 1, 5) || x'ff' || substr(payload, 7) WHERE first_cell = 640");
        Verification v = Verifier.verify(path);
        assertThat(v.damages()).hasSize(1);
        Damage damage = v.damages().get(0);
        assertThat(damage.part()).isEqualTo(Damage.Part.STRETCH);
        assertThat(damage.row()).isEqualTo(640);
        assertThat(damage.fromNanos()).isEqualTo(64_000_000_000L);
        assertThat(damage.toNanos()).isEqualTo(128_000_000_000L);
        try (RecordingFile file = RecordingFile.open(path)) {
            List<Slice> got = new ArrayList<>();
            assertThatThrownBy(() -> file.forEachSlice(0, Long.MAX_VALUE, got::add))
                    .isInstanceOf(RecordingException.class)
                    .hasMessageContaining("damaged from 64.0 s to 128.0 s");
            assertThat(got).isEqualTo(SLICES.subList(0, 640));
        }
    }

    @Test
    void givenAMissingRow_whenVerified_thenTheHoleIsNamedAndReplayStopsThere() throws Exception {
        sql("DELETE FROM stretch WHERE first_cell = 640");
        Verification v = Verifier.verify(path);
        assertThat(v.damages()).hasSize(1);
        assertThat(v.damages().get(0).part()).isEqualTo(Damage.Part.MISSING);
        assertThat(v.damages().get(0).fromNanos()).isEqualTo(64_000_000_000L);
        assertThat(v.damages().get(0).toNanos()).isEqualTo(128_000_000_000L);
        try (RecordingFile file = RecordingFile.open(path)) {
            assertThatThrownBy(() -> RoundTripTest.replay(file))
                    .isInstanceOf(RecordingException.class)
                    .hasMessageContaining("missing before 128.0 s");
        }
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "DELETE FROM stretch WHERE first_cell = 1920",
                "UPDATE stretch SET readings = readings + 1 WHERE first_cell = 0",
                "UPDATE stretch SET cells = 11 WHERE first_cell = 0",
                "UPDATE stretch SET first_cell = 3000 WHERE first_cell = 1920",
                "UPDATE event SET detail = 'all well' WHERE number = 1",
                "UPDATE event SET time_ns = time_ns + 1 WHERE number = 1",
                "DELETE FROM event WHERE number = 0",
                "DELETE FROM event WHERE number = (SELECT max(number) FROM event)",
                "UPDATE session SET value = 'Front hall' WHERE key = 'title'",
                "DELETE FROM session WHERE key = 'setup'",
                "UPDATE session SET value = 'x' WHERE key = 'time_step_ns'",
                "UPDATE channel SET unit = 'hPa' WHERE position = 0",
                "UPDATE channel SET role = 'draft.stack' WHERE position = 0",
                "DELETE FROM channel WHERE position = 3",
                "UPDATE source SET description = '' WHERE position = 0",
                "DROP TABLE event",
                "DROP TABLE stretch"
            })
    void givenTampering_whenVerified_thenItIsNamed(String command) throws Exception {
        sql(command);
        Verification v = Verifier.verify(path);
        assertThat(v.damages()).isNotEmpty();
    }

    @Test
    void givenAFlippedByteAnywhere_whenVerifiedAndRead_thenItIsNamedOrNothingIsLost() throws Exception {
        byte[] good = Files.readAllBytes(path);
        Random random = new Random(1);
        int named = 0;
        for (int at = 0; at < good.length; at += at < 600 ? 1 : 1 + random.nextInt(60)) {
            byte[] bad = good.clone();
            bad[at] ^= (byte) (1 << random.nextInt(8));
            Files.write(path, bad);
            named += check("byte " + at) ? 1 : 0;
        }
        assertThat(named).isGreaterThan(250);
    }

    @Test
    void givenACutFile_whenVerifiedAndRead_thenItIsNamedAndNothingIsInvented() throws Exception {
        byte[] good = Files.readAllBytes(path);
        Random random = new Random(2);
        int named = 0;
        int cuts = 0;
        for (int length = 0; length < good.length; length += 1 + random.nextInt(200)) {
            Files.write(path, Arrays.copyOf(good, length));
            named += check("cut to " + length) ? 1 : 0;
            cuts++;
        }
        assertThat(named).isGreaterThan(cuts * 3 / 4); // the rest are pages that nothing is in
    }

    /** Checks one damaged file; true when the damage is named. */
    private boolean check(String what) {
        boolean named;
        try {
            named = !Verifier.verify(path).intact();
        } catch (RecordingException e) {
            assertThat(e.getMessage()).as(what).startsWith(path + ": ").doesNotContain("\n");
            named = true;
        }
        List<Slice> got = new ArrayList<>();
        boolean whole = false;
        try (RecordingFile file = RecordingFile.open(path)) {
            whole = file.header().equals(HEADER);
            file.forEachSlice(Long.MIN_VALUE, Long.MAX_VALUE, got::add);
            whole &= got.size() == SLICES.size() && file.finished();
        } catch (RecordingException e) {
            whole = false;
        }
        for (int i = 0; i < got.size(); i++) {
            assertThat(got.get(i)).as("%s, slice %d", what, i).isEqualTo(SLICES.get(i));
        }
        assertThat(named || whole).as("%s: neither named nor whole", what).isTrue();
        return named;
    }

    @Test
    void givenOtherFiles_whenOpened_thenOneLineSaysWhatTheyAre() throws Exception {
        expect(folder, Kind.FOREIGN, "not a file");
        expect(folder.resolve("none.dwrec"), Kind.UNREADABLE, "no such file");
        Path other = folder.resolve("b.dwrec");
        Files.write(other, new byte[0]);
        expect(other, Kind.FOREIGN, "empty");
        Files.writeString(other, "time_s,draft.switch [Pa]\n".repeat(500));
        expect(other, Kind.FOREIGN, "not a recording");
        Files.delete(other);
        try (Connection c = DriverManager.getConnection("jdbc:sqlite:" + other);
                Statement s = c.createStatement()) {
            s.execute("CREATE TABLE x(y)");
        }
        expect(other, Kind.FOREIGN, "a database, but not a recording");
        sql("PRAGMA user_version=2");
        expect(path, Kind.NEWER, "newer version");
    }

    private static void expect(Path file, Kind kind, String words) {
        for (boolean verify : new boolean[] {false, true}) {
            assertThatThrownBy(() -> {
                        if (verify) {
                            Verifier.verify(file);
                        } else {
                            RecordingFile.open(file).close();
                        }
                    })
                    .isInstanceOfSatisfying(
                            RecordingException.class, e -> assertThat(e.kind()).isEqualTo(kind))
                    .hasMessageStartingWith(file + ": ")
                    .hasMessageContaining(words);
        }
    }

    @Test
    void givenTargetsThatCannotBe_whenCreated_thenOneLineSaysWhyAndNothingIsTouched() throws Exception {
        byte[] before = Files.readAllBytes(path);
        for (Path target : List.of(path, folder, folder.resolve("no/such/a.dwrec"))) {
            assertThatThrownBy(() -> RecordingWriter.create(target, HEADER).close())
                    .isInstanceOfSatisfying(
                            RecordingException.class, e -> assertThat(e.kind()).isEqualTo(Kind.TARGET));
        }
        Path orphan = Files.write(folder.resolve("c.dwrec-wal"), new byte[] {1});
        assertThatThrownBy(() -> RecordingWriter.create(folder.resolve("c.dwrec"), HEADER)
                        .close())
                .hasMessageContaining("left from another recording");
        assertThat(Files.readAllBytes(path)).isEqualTo(before);
        assertThat(RoundTripTest.filesIn(folder)).containsExactly(path, orphan);
    }
}
