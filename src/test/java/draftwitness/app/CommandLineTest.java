package draftwitness.app;

import static org.assertj.core.api.Assertions.assertThat;

import draftwitness.testkit.Program;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.time.LocalDateTime;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/**
 * Commands as a person types them: exit codes, results on standard output alone, one clear line when something is
 * wrong.
 */
class CommandLineTest {

    @TempDir
    Path folder;

    private String path(String name) {
        return folder.resolve(name).toString();
    }

    private Path write(String name, String text) throws IOException {
        return Files.writeString(folder.resolve(name), text, StandardCharsets.UTF_8);
    }

    /** A line of words, {@code %} standing for the test's folder. */
    private String[] words(String line) {
        return line.strip().replace("%", folder.toString()).split("\\s+");
    }

    @ParameterizedTest
    // spotless:off
    @CsvSource(delimiter = '|', useHeadersInDisplayName = true, textBlock = """
        command                                                                | code | told
        recrod                                                                 | 2    | did you mean record?
        replay %/ok.txt --form 8m                                              | 2    | did you mean --from?
        record --out %/a.dwrec --source g=ascii-line@file:%/ok.txt --tap drat.switch=g | 2 | did you mean draft.switch?
        drivers ascii-lin                                                      | 2    | did you mean ascii-line?
        export %/ok.csv --out %/b.csv --from noon                              | 2    | --from 'noon'
        record                                                                 | 2    | --out
        record --out %/a.dwrec                                                 | 2    | no source given
        record --out %/a.dwrec --source draft.switch=nonesuch@file:%/ok.txt    | 2    | there is no driver 'nonesuch'
        record --out %/a.dwrec --source draft.switch=ascii-line@serial:/dev/ttyNONE7 | 1 | no such port
        record --out %/a.dwrec --source draft.switch=ascii-line@tcp:127.0.0.1:1 | 1   | 127.0.0.1:1
        record --out %/a.dwrec --source draft.switch=ascii-line@file:%/none    | 2    | no such file
        record --out %/a.dwrec --source draft.switch=ascii-line@simulated:nonesuch | 2 | nonesuch
        record --out %/a.dwrec --source draft.switch=simulated-house@recording:%/none.dwrec --tap draft.switch=draft.switch.draft.switch | 2 | none.dwrec
        record --out %/a.dwrec --source draft.switch=ascii-line@serial:/dev/ttyS9?baud=abc | 2 | baud=abc
        record --out %/a.dwrec --source draft.switch=ascii-line@tcp:host       | 2    | tcp:HOST:PORT
        record --out %/a.dwrec --source draft.switch=nmea-xdr@file:%/ok.txt?speed=100 | 1 | none of them was a reading
        record --out %/ok.txt --source draft.switch=ascii-line@file:%/ok.txt   | 2    | is there already
        record --out %/no/a.dwrec --source draft.switch=ascii-line@file:%/ok.txt | 2  | no
        record --out %/a.dwrec --setup %/bad.toml                              | 2    | bad.toml:2: switch.set-pont
        record --out %/a.dwrec --setup %/broken.toml                           | 2    | broken.toml:1
        record --out %/a.dwrec --setup %/none.toml                             | 2    | no such file
        record --out %/a.dwrec --for soon --source draft.switch=ascii-line@file:%/ok.txt | 2 | soon
        record --out %/a.dwrec --drivers %/drivers --source draft.switch=mine@file:%/ok.txt | 2 | mine.toml:2
        record --out %/a.dwrec --drivers %/none --source draft.switch=mine@file:%/ok.txt | 2 | no such folder
        analyze %/none.dwrec                                                   | 2    | none.dwrec
        analyze %/ok.txt                                                       | 2    | ok.txt
        analyze %                                                              | 2    |
        replay %/empty.dwrec --text                                            | 2    | empty.dwrec
        export %/ok.txt --out %/b.csv                                          | 2    | ok.txt
        verify %/ok.txt                                                        | 2    | ok.txt
        import %/none.csv --out %/b.dwrec                                      | 2    | none.csv
        import %/bad.csv --out %/b.dwrec                                       | 2    | bad.csv:3
        import %/ok.csv --out %/b.dwrec --start yesterday                      | 2    | yesterday
        simulate                                                               | 2    | --list
        simulate nonesuch --out %/b.dwrec                                      | 2    | nonesuch
        """)
    // spotless:on
    void givenBadInput_whenRun_thenOneClearLineAndExitCode(String command, int code, String told) throws IOException {
        write("ok.txt", "1.0\n2.0\n");
        write("empty.dwrec", "");
        write("bad.toml", "[switch]\nset-pont = \"1 Pa\"\n");
        write("broken.toml", "title = \"x\n");
        write("bad.csv", "time_s,draft.switch [Pa]\n0,1.0\n1,one\n");
        write("ok.csv", "time_s,draft.switch [Pa]\n0,1.0\n1,1.5\n");
        Files.createDirectory(folder.resolve("drivers"));
        write("drivers/mine.toml", "title = \"Mine\"\nkind = \"lines\"\n");

        Program.Result result = Program.run(words(command));

        assertThat(result.code()).as(result.err()).isEqualTo(code);
        assertThat(result.out()).isEmpty();
        boolean recorded = told != null && told.startsWith("none of them");
        assertThat(Files.exists(folder.resolve("a.dwrec"))).isEqualTo(recorded);
        assertThat(result.complaints()).as(result.err()).hasSize(1);
        if (told != null) {
            assertThat(result.complaints().get(0)).contains(told);
        }
        assertThat(folder.resolve("b.dwrec")).doesNotExist();
        assertThat(folder.resolve("b.csv")).doesNotExist();
    }

    @Test
    void givenBytesInAFile_whenRecordedExportedImportedAndExported_thenTheSameTable() throws IOException {
        StringBuilder lines = new StringBuilder();
        StringBuilder values = new StringBuilder();
        for (int i = 0; i < 500; i++) {
            String value = "-" + (200 + i % 37) + "." + i % 10;
            lines.append(value).append(" Pa\r\n");
            values.append(value).append('\n');
        }
        write("bytes.txt", lines.toString());
        Program.Result recorded = Program.run(
                words("record --out %/a.dwrec --source draft.switch=ascii-line@file:%/bytes.txt?baud=9600&speed=100"));
        assertThat(recorded.code()).as(recorded.err()).isZero();
        assertThat(Program.run(words("export %/a.dwrec --out %/1.csv")).code()).isZero();
        assertThat(Program.run(words("import %/1.csv --out %/b.dwrec")).code()).isZero();
        assertThat(Program.run(words("export %/b.dwrec --out %/2.csv")).code()).isZero();
        assertThat(folder.resolve("2.csv")).hasSameBinaryContentAs(folder.resolve("1.csv"));
        Program.Result out = Program.run(words("export %/a.dwrec --out -"));
        assertThat(out.out()).isEqualTo(Files.readString(folder.resolve("1.csv")));
        String column = out.out().lines().skip(1).map(l -> l.split(",", -1)[1]).reduce("", (a, b) -> a + b + "\n");
        assertThat(column).isEqualTo(values.toString());
    }

    @Test
    void givenATableThatIsThere_whenExportedOverIt_thenOnlyWithReplace() throws IOException {
        write("t.csv", "time_s,draft.switch [Pa]\n0,1\n479,2\n480,3\n");
        assertThat(Program.run(words("import %/t.csv --out %/t.dwrec")).code()).isZero();
        write("out.csv", "mine");

        Program.Result refused = Program.run(words("export %/t.dwrec --out %/out.csv"));
        assertThat(refused.code()).isEqualTo(2);
        assertThat(refused.err()).contains("--replace");
        assertThat(folder.resolve("out.csv")).hasContent("mine");

        assertThat(Program.run(words("export %/t.dwrec --out %/out.csv --replace --from 8m"))
                        .code())
                .isZero();
        assertThat(folder.resolve("out.csv")).hasContent("time_s,draft.switch [Pa]\n480,3\n");
        assertThat(Program.run(words("export %/t.dwrec --out - --to 7:59.5")).out())
                .isEqualTo("time_s,draft.switch [Pa]\n0,1\n479,2\n");
    }

    @Test
    void givenAStartWithoutZone_whenImported_thenTheZoneTakenIsTold() throws IOException {
        write("t.csv", "time_s,draft.switch [Pa]\n0,1\n");
        String[] command = words("import %/t.csv --out %/t.dwrec --start _");
        command[command.length - 1] = "2026-01-17 22:10";
        Program.Result imported = Program.run(command);
        assertThat(imported.code()).as(imported.err()).isZero();
        assertThat(imported.err()).contains("start taken as 2026-01-17 22:10:00 " + ZoneId.systemDefault());
        Instant start = LocalDateTime.of(2026, 1, 17, 22, 10)
                .atZone(ZoneId.systemDefault())
                .toInstant();
        assertThat(Program.run(words("analyze --json %/t.dwrec")).out()).contains("\"start\":\"" + start + "\"");
    }

    @Test
    void givenADriversName_whenListed_thenThatDriverWithItsDescription() {
        Program.Result shown = Program.run("drivers", "ascii-line");
        assertThat(shown.code()).isZero();
        assertThat(shown.out()).startsWith("ascii-line\n").contains("readings: pressure [Pa]", "[[reading]]");
        assertThat(shown.out()).doesNotContain("modbus-rtu\n");
    }

    @Test
    void givenImportedTable_whenAnalyzedAsJson_thenTheShapeOfTheContract() throws IOException {
        StringBuilder csv = new StringBuilder("time_s,draft.switch [inH2O],contact.switch [1]\n");
        for (int i = 0; i < 100; i++) {
            csv.append(i < 50 ? i * 0.1 : 2.5 + i * 0.1)
                    .append(",-1.")
                    .append(10 + i % 10)
                    .append(i == 3 ? ",1" : ",")
                    .append('\n');
        }
        write("t.csv", csv.toString().replaceAll("(\\.\\d)\\d+,-", "$1,-"));
        Program.Result imported = Program.run(words("import %/t.csv --out %/t.dwrec --start 2026-01-17T22:10:00Z"));
        assertThat(imported.code()).as(imported.err()).isZero();
        Program.Result result = Program.run(words("analyze --json %/t.dwrec"));
        assertThat(result.out().strip())
                .startsWith(
                        "{\"file\":\"" + path("t.dwrec") + "\",\"start\":\"2026-01-17T22:10:00Z\",\"duration_s\":12.4,"
                                + "\"channels\":[{\"role\":\"draft.switch\",\"unit\":\"Pa\",\"readings\":100,"
                                + "\"gaps\":[{\"start_s\":4.9,\"end_s\":7.5}]},"
                                + "{\"role\":\"contact.switch\",\"unit\":\"1\",\"readings\":1,\"gaps\":[]}],"
                                + "\"cycles\":[{\"index\":1,\"start_s\":0.0,\"end_s\":12.4,\"outcome\":\"incomplete\",\"attempts\":1,"
                                + "\"phases\":[{\"phase\":\"pre-purge\",\"start_s\":0.0,\"end_s\":12.4}],\"margin_pa\":null,");
        assertThat(result.out())
                .contains("\"lockouts\":[],\"findings\":[{\"kind\":\"no-set-point\",\"severity\":\"note\",");
        Program.Result several = Program.run(words("analyze --json %/t.dwrec %/none.dwrec %/t.dwrec"));
        assertThat(several.code()).isEqualTo(1);
        assertThat(several.out().lines().toList()).hasSize(3);
        assertThat(several.out().lines().toList().get(1)).contains("\"error\":");
    }

    @Test
    void givenNoSourcesOnTheCommandLine_whenTheSetupHasThem_thenTheyAreUsed_andTheSetupIsKept() throws IOException {
        write("bytes.txt", "-100.5\n".repeat(50));
        write(
                "setup.toml",
                "title = \"Back hall furnace\"\n[switch]\nset-point = \"0.95 inH2O\"\n[sources]\n\"draft.switch\" = "
                        + "\"ascii-line@file:" + path("bytes.txt") + "?baud=9600&speed=50\"\n");
        Program.Result recorded = Program.run(words("record --out %/a.dwrec --setup %/setup.toml"));
        assertThat(recorded.code()).as(recorded.err()).isZero();
        assertThat(Program.run(words("analyze %/a.dwrec")).out())
                .contains("Back hall furnace")
                .contains("50 readings");
        Program.Result replayed = Program.run(words("replay %/a.dwrec --text --speed 50"));
        assertThat(replayed.out()).contains("draft.switch -100.5 Pa");
        Program.Result verified = Program.run(words("verify %/a.dwrec"));
        assertThat(verified.code()).isZero();
        assertThat(verified.out()).contains("50 readings").contains("intact");
    }

    @Test
    void givenRecordingAsASource_whenRecordedAgain_thenTheSameReadings() {
        assertThat(Program.run(words("simulate demo-house --for 20s --out %/a.dwrec"))
                        .code())
                .isZero();
        Program.Result again =
                Program.run(words("record --out %/b.dwrec --source old=simulated-house@recording:%/a.dwrec?speed=40"
                        + " --tap draft.switch=old.draft.switch --tap contact.switch=old.contact.switch"
                        + " --tap draft.inducer=old.draft.inducer --tap gas.manifold=old.gas.manifold"));
        assertThat(again.code()).as(again.err()).isZero();
        List<String> first = table("%/a.dwrec", "draft.switch [Pa]");
        assertThat(first).hasSizeGreaterThan(900);
        assertThat(table("%/b.dwrec", "draft.switch [Pa]")).isEqualTo(first);
    }

    /** Times and values of one column. */
    private List<String> table(String file, String column) {
        List<String> lines =
                Program.run(words("export " + file + " --out -")).out().lines().toList();
        int index = List.of(lines.get(0).split(",", -1)).indexOf(column);
        return lines.stream()
                .skip(1)
                .map(l -> l.split(",", -1))
                .filter(cells -> !cells[index].isEmpty())
                .map(cells -> cells[0] + "," + cells[index])
                .toList();
    }

    @Test
    void givenEveryCommand_whenAskedForHelp_thenItHelps() {
        List<String> commands = new ArrayList<>(List.of(
                "watch",
                "record",
                "replay",
                "analyze",
                "import",
                "export",
                "verify",
                "sources",
                "drivers",
                "simulate"));
        for (String command : commands) {
            Program.Result result = Program.run(command, "--help");
            assertThat(result.code()).isZero();
            assertThat(result.out()).contains("Usage: draftwitness " + command);
            assertThat(Program.run("--help").out()).contains(command);
        }
    }

    @Test
    void givenSameScenarioAndSeed_whenSimulatedTwice_thenSameBytes_andAnotherSeedDiffers() throws IOException {
        assertThat(Program.run(words("simulate demo-house --for 30s --out %/a.dwrec"))
                        .code())
                .isZero();
        assertThat(Program.run(words("simulate demo-house --for 30s --out %/b.dwrec"))
                        .code())
                .isZero();
        assertThat(Program.run(words("simulate demo-house --for 30s --seed 2 --out %/c.dwrec"))
                        .code())
                .isZero();
        assertThat(folder.resolve("b.dwrec")).hasSameBinaryContentAs(folder.resolve("a.dwrec"));
        assertThat(Files.readAllBytes(folder.resolve("c.dwrec")))
                .isNotEqualTo(Files.readAllBytes(folder.resolve("a.dwrec")));
        assertThat(Files.readString(folder.resolve("a.truth.json"))).contains("\"scenario\": \"demo-house\"");
    }
}
