package draftwitness.app;

import static org.assertj.core.api.Assertions.assertThat;

import draftwitness.testkit.Program;
import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** {@code notes}, {@code record --keep} and {@code verify} as a person types them. */
class NotesAndKeepTest {
    @TempDir
    Path folder;

    private Program.Result run(String... words) {
        return Program.run(words);
    }

    private String simulated() {
        String file = folder.resolve("a.dwrec").toString();
        assertThat(run("simulate", "demo-house", "--for", "20s", "--out", file).code())
                .isZero();
        return file;
    }

    @Test
    void givenARecording_whenNotesAreTyped_thenTheyAreListedChangedUndoneAndTheEvidenceStays() {
        String file = simulated();
        String evidence = evidence(file);
        assertThat(run("notes", file).out()).isEmpty();
        assertThat(run("notes", file, "--add", "gurgling", "--at", "0:12", "--to", "15s")
                        .out())
                .isEqualTo("1  0:00:12 to 0:00:15  gurgling\n");
        assertThat(run("notes", file, "--add", "", "--at", "3").out())
                .isEqualTo("2  0:00:03  (bookmark)\n1  0:00:12 to 0:00:15  gurgling\n");
        assertThat(run("notes", file, "--change", "2", "--text", "here").out()).contains("2  0:00:03  here");
        assertThat(run("notes", file, "--remove", "1").out()).isEqualTo("2  0:00:03  here\n");
        assertThat(run("notes", file, "--undo").out()).contains("1  0:00:12 to 0:00:15  gurgling");
        assertThat(run("notes", file, "--undo").out()).contains("2  0:00:03  (bookmark)");
        assertThat(run("notes", file, "--redo").out()).contains("2  0:00:03  here");
        assertThat(evidence(file)).isEqualTo(evidence);
        Program.Result wrong = run("notes", file, "--remove", "9");
        assertThat(wrong.code()).isEqualTo(2);
        assertThat(wrong.err()).contains("has no note 9");
        assertThat(run("notes", file, "--add", "x").err()).contains("--at");
        assertThat(run("notes", file, "--undo", "--redo").err()).contains("one at a time");
    }

    private String evidence(String file) {
        String out = run("verify", file).out();
        return out.lines()
                .filter(l -> l.startsWith("evidence SHA-256 "))
                .findFirst()
                .orElseThrow();
    }

    @Test
    void givenWishesThatDoNotFit_whenRecordIsTold_thenOneLineSaysWhat() throws Exception {
        Path bytes = Files.writeString(folder.resolve("bytes.txt"), "-1.5\n".repeat(20));
        String[][] cases = {
            {"--keep", "some", "say all or episodes"},
            {"--memory", "20m", "go with --keep episodes"},
            {"--keep=episodes", "--memory=10s", "too short"},
            {"--keep=episodes", "--budget=lots", "is not a size"}
        };
        for (String[] c : cases) {
            Program.Result result = run(
                    "record",
                    "--source",
                    "draft.switch=ascii-line@file:" + bytes + "?baud=9600&speed=50",
                    "--out",
                    folder.resolve("x.dwrec").toString(),
                    c[0],
                    c[1]);
            assertThat(result.code()).as("%s", c[2]).isEqualTo(2);
            assertThat(result.err()).contains(c[2]);
        }
        Program.Result kept = run(
                "record",
                "--source",
                "draft.switch=ascii-line@file:" + bytes + "?baud=9600&speed=50",
                "--out",
                folder.resolve("x.dwrec").toString(),
                "--keep",
                "episodes",
                "--budget",
                "5MB");
        assertThat(kept.code()).as(kept.err()).isZero();
        assertThat(run("verify", folder.resolve("x.dwrec").toString()).out())
                .contains("20 readings")
                .contains("intact");
    }
}
