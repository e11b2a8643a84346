package draftwitness.app;

import static org.assertj.core.api.Assertions.assertThat;

import draftwitness.testkit.Program;
import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;

/** The status file of {@code record}. */
@Timeout(120)
class StatusFileTest {
    @TempDir
    Path folder;

    private static Program.Result record(Path out, Path status) {
        return Program.run(
                "record",
                "--source",
                "house=simulated-house@simulated:condensate-in-vent-severe?speed=2000",
                "--for",
                "15m",
                "--out",
                out.toString(),
                "--status",
                status.toString());
    }

    @Test
    void givenFlutter_whenTheSessionIsOver_thenTheStatusTellsIt() throws Exception {
        Path status = folder.resolve("status.txt");
        Program.Result recorded = record(folder.resolve("a.dwrec"), status);
        assertThat(recorded.code()).as(recorded.err()).isZero();
        assertThat(Files.readString(status))
                .contains(": over, 0:15:00", "a.dwrec, ", "safe on the disk up to", "now: standby since ")
                .contains("cycles: ", "latest episode: flutter at ", "source live: house: ");
        assertThat(folder.resolve("status.txt.part")).doesNotExist();
    }

    @Test
    void givenAStatusFileThatCannotBeWritten_whenRecorded_thenTheRecordingIsWhole() throws Exception {
        Path status = folder.resolve("no-such-folder/status.txt");
        Program.Result recorded = record(folder.resolve("b.dwrec"), status);
        assertThat(recorded.code()).as(recorded.err()).isZero();
        assertThat(Program.run("verify", folder.resolve("b.dwrec").toString()).code())
                .isZero();
    }
}
