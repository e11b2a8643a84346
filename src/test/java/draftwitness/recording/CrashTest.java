package draftwitness.recording;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assumptions.assumeThat;

import draftwitness.reading.SessionHeader;
import draftwitness.reading.Slice;
import draftwitness.recording.RecordingException.Kind;
import java.io.BufferedReader;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import java.util.concurrent.TimeUnit;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** A recording that is cut off loses at most what was not committed, and invents nothing. */
class CrashTest {
    private static final SessionHeader HEADER = RandomSessions.header();

    @TempDir
    Path folder;

    @Test
    void givenAKilledProcess_whenItsFileIsOpened_thenEveryCommittedSliceIsThereInOrder() throws Exception {
        int runs = Integer.getInteger("crash.runs", 8);
        Random random = new Random(42);
        for (int run = 0; run < runs; run++) {
            int cells = 3000;
            Path path = folder.resolve("run" + run + ".dwrec");
            Process child = RecordingChild.start(List.of(), path.toString(), Integer.toString(run), "" + cells);
            long safe = killAfter(child, random.nextInt(250), random.nextInt(200_000));
            List<Slice> slices = RandomSessions.slices(HEADER, run, 0, cells);
            Verification verification = Verifier.verify(path);
            assertThat(verification.damages()).as("run %d", run).isEmpty();
            try (RecordingFile file = RecordingFile.open(path)) {
                assertThat(file.header()).isEqualTo(HEADER);
                List<Slice> got = RoundTripTest.replay(file);
                assertThat(got.size() * Slice.CELL_NANOS).as("run %d", run).isGreaterThanOrEqualTo(safe);
                assertThat(got.equals(slices.subList(0, got.size())))
                        .as("run %d", run)
                        .isTrue();
            }
        }
    }

    /** Lets the child commit so often, and turns round a little longer; returns the time that it said was safe. */
    private static long killAfter(Process child, int commits, int turns) throws Exception {
        long safe = 0;
        try (BufferedReader out = child.inputReader(StandardCharsets.UTF_8)) {
            assertThat(out.readLine()).isEqualTo("ready");
            for (int i = 0; i < commits; i++) {
                safe = Long.parseLong(out.readLine());
            }
            for (int i = 0; i < turns; i++) {
                Thread.onSpinWait();
            }
            child.toHandle().destroyForcibly(); // SIGKILL, its output stays readable
            assertThat(child.waitFor(30, TimeUnit.SECONDS)).isTrue();
            for (String line = out.readLine(); line != null; line = out.readLine()) {
                safe = line.matches("\\d+") ? Long.parseLong(line) : safe;
            }
        }
        return safe;
    }

    @Test
    void givenAFullDisk_whenRecording_thenItStopsWithOneLineAndKeepsWhatWasCommitted() throws Exception {
        Path small = Files.createDirectory(folder.resolve("small"));
        Path kept = Files.createDirectory(folder.resolve("kept"));
        Files.writeString(folder.resolve("run.sh"), """
                mount -t tmpfs -o size=400k none "$1" || exit 77
                kept=$2
                shift 2
                "$@"
                cp small/* "$kept"
                """);
        List<String> before = List.of(
                "unshare", "-m", "sh", "-c", "cd \"$0\" && exec sh run.sh \"$@\"", folder.toString(), "small", "kept");
        assumeThat(canMount(small))
                .as("a small file system can be mounted in a namespace")
                .isTrue();
        Process child = RecordingChild.start(before, "small/a.dwrec", "3", "20000");
        List<String> lines = linesOf(child);
        String last = lines.get(lines.size() - 1);
        assertThat(last).startsWith("DISK_FULL small/a.dwrec: the disk is full");
        long safe = Long.parseLong(lines.get(lines.size() - 2));
        assertThat(safe).isPositive();
        Path path = kept.resolve("a.dwrec");
        assertThat(Verifier.verify(path).damages()).isEmpty();
        List<Slice> slices = RandomSessions.slices(HEADER, 3, 0, 20_000);
        try (RecordingFile file = RecordingFile.open(path)) {
            List<Slice> got = RoundTripTest.replay(file);
            assertThat(got.size() * Slice.CELL_NANOS).isEqualTo(safe);
            assertThat(got.equals(slices.subList(0, got.size()))).isTrue();
        }
    }

    private static boolean canMount(Path small) throws Exception {
        if ("true".equals(System.getenv("CI"))) {
            return true; // then a failure shows
        }
        if (!Files.isExecutable(Path.of("/usr/bin/unshare"))) {
            return false;
        }
        return new ProcessBuilder("unshare", "-m", "mount", "-t", "tmpfs", "-o", "size=1m", "none", small.toString())
                        .start()
                        .waitFor()
                == 0;
    }

    private static List<String> linesOf(Process child) throws Exception {
        List<String> lines = new ArrayList<>();
        try (BufferedReader out = child.inputReader(StandardCharsets.UTF_8)) {
            for (String line = out.readLine(); line != null; line = out.readLine()) {
                lines.add(line);
            }
        }
        assertThat(child.waitFor(30, TimeUnit.SECONDS)).isTrue();
        return lines;
    }

    @Test
    void givenADatabaseThatMayNotGrow_whenRecording_thenItIsReportedAsAFullDiskAndTheFileIsFinishable()
            throws Exception {
        List<Slice> slices = RandomSessions.slices(HEADER, 5, 0, 2000);
        Path path = folder.resolve("a.dwrec");
        List<Slice> got;
        try (RecordingWriter writer = RecordingWriter.create(path, HEADER)) {
            writer.database().execute("PRAGMA max_page_count=100");
            assertThatThrownBy(() -> {
                        for (Slice slice : slices) {
                            writer.append(slice);
                        }
                    })
                    .isInstanceOfSatisfying(
                            RecordingException.class, e -> assertThat(e.kind()).isEqualTo(Kind.DISK_FULL));
            assertThatThrownBy(() -> writer.append(slices.get(0))).isInstanceOf(IllegalStateException.class);
        }
        assertThat(Verifier.verify(path).damages()).isEmpty();
        try (RecordingFile file = RecordingFile.open(path)) {
            got = RoundTripTest.replay(file);
        }
        assertThat(got).isNotEmpty();
        assertThat(got.equals(slices.subList(0, got.size()))).isTrue();
    }

    @Test
    void givenAFileCutOffWithItsLog_whenItsFolderIsReadOnly_thenItOpensFromACopy() throws Exception {
        List<Slice> slices = RandomSessions.slices(HEADER, 9, 0, 105);
        Path source = folder.resolve("a.dwrec");
        Path locked = Files.createDirectory(folder.resolve("locked"));
        Path path = locked.resolve("a.dwrec");
        try (RecordingWriter writer = RecordingWriter.create(source, HEADER)) {
            for (Slice slice : slices) {
                writer.append(slice);
            }
            Files.copy(source, path);
            Files.copy(Database.beside(source, "-wal"), Database.beside(path, "-wal"));
        }
        String user = System.getProperty("user.name");
        assumeThat(user.equals("root") && Files.isExecutable(Path.of("/usr/bin/unshare")))
                .as("may mount a folder read-only")
                .isTrue();
        Process child = new ProcessBuilder(
                        "unshare",
                        "-m",
                        "sh",
                        "-c",
                        "mount --bind \"$0\" \"$0\" && mount -o remount,bind,ro \"$0\" && exec \"$@\"",
                        locked.toString(),
                        Path.of(System.getProperty("java.home"), "bin", "java").toString(),
                        "-cp",
                        System.getProperty("java.class.path"),
                        ReadingChild.class.getName(),
                        path.toString())
                .redirectErrorStream(true)
                .start();
        assertThat(linesOf(child)).containsExactly("104 slices");
        assertThat(RoundTripTest.filesIn(locked)).containsExactly(path, Database.beside(path, "-wal"));
    }

    /** The program of a child process that reads a recording and counts its slices. */
    static final class ReadingChild {
        private ReadingChild() {}

        public static void main(String[] arguments) throws Exception {
            try (RecordingFile file = RecordingFile.open(Path.of(arguments[0]))) {
                System.out.println(RoundTripTest.replay(file).size() + " slices");
            }
        }
    }
}
