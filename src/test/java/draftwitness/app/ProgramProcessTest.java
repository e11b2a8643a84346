package draftwitness.app;

import static org.assertj.core.api.Assertions.assertThat;

import draftwitness.reading.Block;
import draftwitness.reading.Slice;
import draftwitness.reading.SourceEvent;
import draftwitness.reading.SourceState;
import draftwitness.recording.RecordingFile;
import draftwitness.recording.SliceCursor;
import draftwitness.recording.Verifier;
import draftwitness.testkit.Peers;
import draftwitness.testkit.Program;
import draftwitness.testkit.Pty;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.TimeUnit;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;

/** The program in a JVM of its own: asked to stop, killed, and on a disk that fills up. */
@Timeout(120)
class ProgramProcessTest {
    private static final int PER_SECOND = 100;

    @TempDir
    Path folder;

    private Path errors() {
        return folder.resolve("errors.txt");
    }

    /** Numbered readings from a real port at 100 a second until the recorder has had so many seconds of them. */
    private int send(Pty pty, Process recorder, int seconds) throws Exception {
        pty.send("\n");
        int sent = 0;
        for (int tick = 0; tick < seconds * 10; tick++) {
            for (int i = 0; i < PER_SECOND / 10; i++) {
                sent++;
                pty.send(-sent + ".5 Pa\n");
            }
            assertThat(recorder.waitFor(100, TimeUnit.MILLISECONDS))
                    .as("still recording; " + Files.readString(errors()))
                    .isFalse();
        }
        return sent;
    }

    private Process record(Pty pty, Path file) throws Exception {
        Process recorder = Program.start(
                errors(),
                Program.command(
                        "record",
                        "--out",
                        file.toString(),
                        "--source",
                        "draft.switch=ascii-line@serial:" + pty.path()));
        // The port is open once the program says so.
        for (int look = 0; look < 300 && !Files.readString(errors()).contains("live (opened)"); look++) {
            assertThat(recorder.waitFor(100, TimeUnit.MILLISECONDS)).isFalse();
        }
        assertThat(Files.readString(errors())).contains("live (opened)");
        return recorder;
    }

    /** Checks that the readings are 1.5, 2.5, 3.5 ... without a hole, and counts them. */
    private static int unbroken(Path file) throws Exception {
        int n = 0;
        try (RecordingFile recording = RecordingFile.open(file)) {
            SliceCursor cursor = recording.slices();
            for (Slice slice = cursor.next(); slice != null; slice = cursor.next()) {
                for (Block block : slice.blocks()) {
                    for (int i = 0; i < block.size(); i++) {
                        assertThat(block.count(i)).isEqualTo(-(++n * 10L + 5));
                    }
                }
            }
        }
        return n;
    }

    @Test
    void givenRecording_whenKilled_thenTheFileOpens_andAtMostTheLastSecondIsMissing() throws Exception {
        Peers.needPty();
        for (int round = 0; round < 3; round++) {
            Path file = folder.resolve("killed" + round + ".dwrec");
            try (Pty pty = new Pty()) {
                Process recorder = record(pty, file);
                int sent = send(pty, recorder, 4);
                recorder.destroyForcibly(); // SIGKILL
                assertThat(recorder.waitFor(10, TimeUnit.SECONDS)).isTrue();
                // By design a second: 0.8 s not yet committed, 0.1 s of an unfinished slice, 0.1 s of its hold. A busy
                // machine may stall for longer, so the test allows two.
                int kept = unbroken(file);
                assertThat(kept).isBetween(sent - 2 * PER_SECOND, sent);
            }
            assertThat(Verifier.verify(file).damages()).isEmpty();
        }
    }

    @Test
    void givenRecording_whenAskedToStop_thenEverythingIsKeptInOneFile_andExitCode0() throws Exception {
        Peers.needPty();
        Path file = folder.resolve("stopped.dwrec");
        try (Pty pty = new Pty()) {
            Process recorder = record(pty, file);
            int sent = send(pty, recorder, 2);
            // What the port still holds when it is closed is lost; give a stalled machine time to read it.
            assertThat(recorder.waitFor(2, TimeUnit.SECONDS)).isFalse();
            recorder.destroy(); // SIGTERM
            assertThat(recorder.waitFor(30, TimeUnit.SECONDS)).isTrue();
            assertThat(recorder.exitValue()).as(Files.readString(errors())).isZero();
            assertThat(unbroken(file)).isEqualTo(sent);
            try (RecordingFile recording = RecordingFile.open(file)) {
                assertThat(recording.events()).extracting(SourceEvent::state).containsOnly(SourceState.LIVE);
            }
        }
        assertThat(Verifier.verify(file).finished()).isTrue();
        try (var files = Files.list(folder)) {
            assertThat(files.map(f -> f.getFileName().toString()).filter(n -> n.startsWith("stopped")))
                    .containsExactly("stopped.dwrec");
        }
    }

    @Test
    void givenDiskThatFillsUp_whenRecording_thenOneLine_exitCode1_andAllCommittedIsKept() throws Exception {
        Path small = Files.createDirectory(folder.resolve("small"));
        Path kept = Files.createDirectory(folder.resolve("kept"));
        Peers.need(canMount(small), "a small file system cannot be mounted here (root and unshare are needed)");
        StringBuilder bytes = new StringBuilder();
        for (int i = 1; i <= 400_000; i++) {
            bytes.append(-i).append(".5 Pa\n");
        }
        Files.writeString(folder.resolve("bytes.txt"), bytes);
        Files.writeString(
                folder.resolve("run.sh"),
                "mount -t tmpfs -o size=300k none small || exit 77\n\"$@\"\ncode=$?\ncp small/* kept\nexit $code\n");
        List<String> words = new ArrayList<>(
                List.of("unshare", "-m", "sh", "-c", "cd \"$0\" && exec sh run.sh \"$@\"", folder.toString()));
        words.addAll(Program.command(
                "record",
                "--out",
                "small/full.dwrec",
                "--source",
                "draft.switch=ascii-line@file:bytes.txt?speed=2000"));
        Process recorder = Program.start(errors(), words);
        assertThat(recorder.waitFor(100, TimeUnit.SECONDS)).isTrue();
        String told = Files.readString(errors());
        assertThat(recorder.exitValue()).as(told).isEqualTo(1);
        assertThat(told.lines().filter(l -> l.startsWith("draftwitness: ")).toList())
                .singleElement()
                .asString()
                .contains("full.dwrec")
                .contains("disk is full")
                .contains("kept up to");
        assertThat(unbroken(kept.resolve("full.dwrec"))).isGreaterThan(1000);
        assertThat(Verifier.verify(kept.resolve("full.dwrec")).damages()).isEmpty();
    }

    private static boolean canMount(Path small) throws Exception {
        try {
            return new ProcessBuilder(
                                    "unshare",
                                    "-m",
                                    "mount",
                                    "-t",
                                    "tmpfs",
                                    "-o",
                                    "size=300k",
                                    "none",
                                    small.toString())
                            .start()
                            .waitFor()
                    == 0;
        } catch (IOException e) {
            return false;
        }
    }

    @Test
    void givenAnImportUnderWay_whenAskedToStop_thenNothingIsLeftOfIt() throws Exception {
        Path table = folder.resolve("t.csv");
        StringBuilder lines = new StringBuilder("time_s,draft.switch [Pa],gas.manifold [Pa]\n");
        for (int i = 0; i < 2_000_000; i++) {
            lines.append(i / 100).append('.').append(i / 10 % 10).append(i % 10).append(",-237.5,871.25\n");
        }
        Files.writeString(table, lines);
        Path target = folder.resolve("t.dwrec");
        Process importing =
                Program.start(errors(), Program.command("import", table.toString(), "--out", target.toString()));
        while (names().stream().noneMatch(n -> n.endsWith(".part"))) {
            assertThat(importing.waitFor(2, TimeUnit.MILLISECONDS))
                    .as(Files.readString(errors()))
                    .isFalse();
        }
        importing.destroy(); // SIGTERM
        assertThat(importing.waitFor(60, TimeUnit.SECONDS)).isTrue();
        assertThat(importing.exitValue()).as(Files.readString(errors())).isEqualTo(1);
        assertThat(Files.readString(errors())).contains("stopped before it was complete");
        assertThat(names()).containsExactlyInAnyOrder("t.csv", "errors.txt");
    }

    private List<String> names() throws IOException {
        try (Stream<Path> files = Files.list(folder)) {
            return files.map(f -> String.valueOf(f.getFileName())).toList();
        }
    }
}
