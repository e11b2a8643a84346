package draftwitness.app;

import static org.assertj.core.api.Assertions.assertThat;

import draftwitness.testkit.Peers;
import draftwitness.testkit.Program;
import draftwitness.testkit.Pty;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.concurrent.Executors;
import java.util.concurrent.ScheduledExecutorService;
import java.util.concurrent.ScheduledFuture;
import java.util.concurrent.TimeUnit;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;

/** Finding out what is connected, and what a driver makes of bytes. */
@Timeout(60)
class SourcesAndDriversTest {

    @TempDir
    Path folder;

    @Test
    void givenInstrumentThatTalks_whenListenedTo_thenTheDriverThatFits_withReadingsAsProof_andNothingSent()
            throws Exception {
        Peers.needPty();
        ScheduledExecutorService instrument = Executors.newSingleThreadScheduledExecutor();
        try (Pty pty = new Pty()) {
            ScheduledFuture<?> sending = instrument.scheduleAtFixedRate(
                    () -> {
                        try {
                            pty.send("-0.83 inH2O\r\n");
                        } catch (Exception e) {
                            throw new IllegalStateException(e);
                        }
                    },
                    0,
                    50,
                    TimeUnit.MILLISECONDS);
            Program.Result result =
                    Program.run("sources", "--listen", "--for", "1s", "serial:" + pty.path() + "?baud=9600");
            sending.cancel(false);
            assertThat(result.code()).as(result.err()).isZero();
            assertThat(result.out().lines().skip(1).findFirst().orElse(""))
                    .contains("ascii-line")
                    .contains("-0.83 inH2O");
            assertThat(pty.sentByProgram()).isEmpty();
        } finally {
            instrument.shutdownNow();
        }
    }

    @Test
    void givenSilentInstrument_whenListenedTo_thenToldSo() throws Exception {
        Peers.needPty();
        try (Pty pty = new Pty()) {
            Program.Result result = Program.run("sources", "--listen", "--for", "0.2s", "serial:" + pty.path());
            assertThat(result.code()).isZero();
            assertThat(result.out()).contains("said nothing");
        }
    }

    @Test
    void givenMissingPort_whenListenedTo_thenOneLineAndExitCode1() {
        Program.Result result = Program.run("sources", "--listen", "serial:/dev/ttyNONE7");
        assertThat(result.code()).isEqualTo(1);
        assertThat(result.complaints()).singleElement().asString().contains("/dev/ttyNONE7");
    }

    @Test
    void givenALineInHexadecimal_whenChecked_thenTheReadingAtItsOffset() {
        Program.Result result = Program.run(
                "drivers", "check", "ascii-line", "--hex", "2D", "31", "32", "2E", "35", "20", "50", "61", "0D0A");
        assertThat(result.code()).as(result.err()).isZero();
        assertThat(result.out()).contains("-12.5 Pa").contains("000000").contains("1 readings");
    }

    @Test
    void givenDescriptionOfOnesOwn_whenCheckedAgainstAFileOfBytes_thenDecoded() throws Exception {
        Path description = Files.writeString(folder.resolve("mine.toml"), """
                title = "Mine"
                kind = "line"
                [line]
                pattern = 'P=(?<value>\\S+)'
                [[reading]]
                name = "pressure"
                unit = "Pa"
                """);
        Path bytes =
                Files.write(folder.resolve("open.bin"), "P=-1.5\nnoise\nP=-2.5\n".getBytes(StandardCharsets.US_ASCII));
        Program.Result result = Program.run("drivers", "check", description.toString(), "--bytes", bytes.toString());
        assertThat(result.code()).as(result.err()).isZero();
        assertThat(result.out()).contains("-1.5").contains("-2.5").contains("2 readings");
        Program.Result listed = Program.run("drivers", "--drivers", folder.toString());
        assertThat(listed.out()).contains("mine").contains("ascii-line");
    }

    @Test
    void givenBadHexOrBoth_whenChecked_thenOneLineAndExitCode2() {
        for (String[] words : new String[][] {
            {"drivers", "check", "ascii-line"},
            {"drivers", "check", "ascii-line", "--hex", "5"},
            {"drivers", "check", "ascii-line", "--hex", "XY"},
            {"drivers", "check", "none.toml", "--hex", "00"},
            {"drivers", "check", "ascii-line", "--bytes", "none.bin"}
        }) {
            Program.Result result = Program.run(words);
            assertThat(result.code()).as(String.join(" ", words)).isEqualTo(2);
            assertThat(result.complaints()).hasSize(1);
        }
    }
}
