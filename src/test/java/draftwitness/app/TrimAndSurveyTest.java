package draftwitness.app;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import draftwitness.recording.Notebook;
import draftwitness.report.SurveyRow;
import draftwitness.report.SurveyTable;
import draftwitness.testkit.Program;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.time.Instant;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;

/** The commands {@code trim} and {@code survey}. */
@Timeout(180)
class TrimAndSurveyTest {
    private static final long SECOND = 1_000_000_000L;

    @TempDir
    static Path folder;

    private static Path hour;

    @BeforeAll
    static void record() throws Exception {
        hour = folder.resolve("hour.dwrec");
        simulate("healthy-breezy", "1h", hour);
        Notebook book = Notebook.of(hour);
        book.add(60 * SECOND, 60 * SECOND, "early", Instant.parse("2026-01-18T08:00:00Z"));
        book.add(3500 * SECOND, 3500 * SECOND, "late", Instant.parse("2026-01-18T08:00:00Z"));
    }

    private static void simulate(String scenario, String length, Path out) {
        Program.Result made = Program.run("simulate", scenario, "--for", length, "--out", out.toString());
        assertThat(made.code()).as(made.err()).isZero();
    }

    private static String analysis(Path file) {
        Program.Result told = Program.run("analyze", "--json", file.toString());
        assertThat(told.code()).as(told.err()).isZero();
        return told.out();
    }

    /** The text of the cycles in an analysis, without their numbers. */
    private static List<String> cycles(String json) {
        String all = json.substring(json.indexOf("\"cycles\":[") + 10, json.indexOf("],\"lockouts\""));
        return Stream.of(all.split("\\{\"index\":"))
                .skip(1)
                .map(c -> c.substring(c.indexOf(',')).replaceAll(",$", ""))
                .toList();
    }

    @Test
    void givenACycleInTheMiddle_whenTrimmed_thenItIsJudgedAsItWasInTheWholeAndVerifies() throws Exception {
        List<String> whole = cycles(analysis(hour));
        assertThat(whole).hasSizeGreaterThanOrEqualTo(3);
        Path part = folder.resolve("part.dwrec");
        Program.Result trimmed = Program.run("trim", hour.toString(), "--cycles", "2", "--out", part.toString());
        assertThat(trimmed.code()).as(trimmed.err()).isZero();
        assertThat(Program.run("verify", part.toString()).code()).isZero();
        List<String> kept = cycles(analysis(part));
        assertThat(kept).hasSize(1);
        assertThat(number(kept.get(0), "start_s")).isCloseTo(number(whole.get(1), "start_s"), within(0.05));
        assertThat(number(kept.get(0), "end_s")).isCloseTo(number(whole.get(1), "end_s"), within(0.05));
        assertThat(outline(kept.get(0))).isEqualTo(outline(whole.get(1)));
        assertThat(part.toFile().length()).isLessThan(hour.toFile().length());
    }

    /**
     * Outcome, attempts and the kinds of episodes. Begin, end and levels may differ a little, since the idle level was
     * learnt from less standby before.
     */
    private static String outline(String cycle) {
        return cycle.replaceAll("(?s).*?(\"outcome\".*?),\"phases\".*", "$1")
                + Stream.of(cycle.split("\"kind\":"))
                        .skip(1)
                        .map(e -> e.substring(0, e.indexOf(',')))
                        .toList();
    }

    private static double number(String cycle, String name) {
        return Double.parseDouble(cycle.replaceAll("(?s).*?\"" + name + "\":([0-9.]+).*", "$1"));
    }

    @Test
    void givenATrimmedPart_whenOpenedUnderAnotherName_thenTheFindingsAreTheSame() throws Exception {
        Path part = folder.resolve("here.dwrec");
        assertThat(Program.run("trim", hour.toString(), "--cycles", "1-2", "--out", part.toString())
                        .code())
                .isZero();
        Path elsewhere = Files.createDirectory(folder.resolve("elsewhere")).resolve("there.dwrec");
        Files.copy(part, elsewhere, StandardCopyOption.REPLACE_EXISTING);
        assertThat(analysis(elsewhere).replace(elsewhere.toString(), part.toString()))
                .isEqualTo(analysis(part));
    }

    @Test
    void givenNotes_whenTrimmedByTime_thenThoseWithinComeAlongAndTimesStay() throws Exception {
        Path part = folder.resolve("early.dwrec");
        Program.Result trimmed =
                Program.run("trim", hour.toString(), "--from", "30s", "--to", "10m", "--out", part.toString());
        assertThat(trimmed.code()).as(trimmed.err()).isZero();
        assertThat(Notebook.of(part).notes()).singleElement().satisfies(n -> {
            assertThat(n.text()).isEqualTo("early");
            assertThat(n.fromNanos()).isEqualTo(60 * SECOND);
        });
    }

    @Test
    void givenWrongWords_whenTrimmed_thenOneLineTellsAndNothingIsLeft() {
        Path part = folder.resolve("wrong.dwrec");
        for (String[] words : List.of(
                new String[] {"--cycles", "99"},
                new String[] {"--cycles", "x"},
                new String[] {"--from", "5m", "--to", "4m"},
                new String[] {"--from", "5m"},
                new String[] {})) {
            String[] all = Stream.concat(Stream.of("trim", hour.toString(), "--out", part.toString()), Stream.of(words))
                    .toArray(String[]::new);
            Program.Result refused = Program.run(all);
            assertThat(refused.code()).as(String.join(" ", words)).isEqualTo(2);
            assertThat(refused.complaints()).hasSize(1);
            assertThat(part).doesNotExist();
        }
    }

    @Test
    void givenAFolder_whenSurveyed_thenEachRecordingIsALineAndTheBadOneSaysWhy() throws Exception {
        Path houses = Files.createDirectories(folder.resolve("houses/west"));
        simulate("condensate-in-vent-severe", "15m", houses.resolve("a.dwrec"));
        simulate("healthy-calm", "30m", houses.resolve("b.dwrec"));
        Files.writeString(houses.resolve("c.dwrec"), "no recording");
        Path table = folder.resolve("table.csv");
        Program.Result told = Program.run("survey", folder.resolve("houses").toString(), "--out", table.toString());
        assertThat(told.code()).isEqualTo(1); // one cannot be read
        List<SurveyRow> rows = rows(table);
        assertThat(rows)
                .extracting(r -> Path.of(r.cell("file")).getFileName().toString())
                .containsExactly("a.dwrec", "b.dwrec", "c.dwrec");
        assertThat(rows.get(0).cell("lockouts")).isEqualTo("1");
        assertThat(rows.get(1).cell("lockouts")).isEqualTo("0");
        assertThat(rows.get(2).cell("error")).contains("not a recording");

        Program.Result again = Program.run("survey", folder.resolve("houses").toString(), "--out", table.toString());
        assertThat(again.err()).doesNotContain("judged");
        assertThat(rows(table)).isEqualTo(rows);
    }

    @Test
    void givenABrokenOffSurvey_whenRunAgain_thenOnlyTheRestIsJudged() throws Exception {
        Path houses = Files.createDirectories(folder.resolve("more"));
        simulate("healthy-calm", "10m", houses.resolve("a.dwrec"));
        simulate("healthy-calm", "10m", houses.resolve("b.dwrec"));
        Path table = folder.resolve("more.csv");
        assertThat(Program.run("survey", houses.toString(), "--out", table.toString())
                        .code())
                .isZero();
        List<String> lines = Files.readAllLines(table);
        Files.delete(table);
        Files.writeString(
                folder.resolve("more.csv.part"),
                lines.get(0) + "\n" + lines.get(1) + "\n" + lines.get(2).substring(0, 9));
        Program.Result rest = Program.run(
                "survey",
                houses.toString(),
                "--out",
                folder.resolve("more.html").toString());
        assertThat(rest.code()).as(rest.err()).isZero();
        assertThat(rest.err().lines().filter(l -> l.startsWith("judged"))).hasSize(1);
        assertThat(Files.readAllLines(table)).isEqualTo(lines);
        assertThat(Files.readString(folder.resolve("more.html")))
                .contains("Survey of 2 recordings")
                .doesNotContain("href");
    }

    private static List<SurveyRow> rows(Path csv) throws Exception {
        return Files.readAllLines(csv).stream()
                .skip(1)
                .map(l -> SurveyTable.parse(l).orElseThrow())
                .toList();
    }

    @Test
    void givenCellsThatASpreadsheetWouldRun_whenWritten_thenTheyAreTextAndReadBackTheSame() {
        SurveyRow row = SurveyRow.unreadable("=cmd|' /C calc'!A0", 5, "@now", "a \"quoted\", line");
        String line = SurveyTable.csv(row);
        assertThat(line).startsWith("'=cmd").contains(",'@now,").contains("\"a \"\"quoted\"\", line\"");
        assertThat(SurveyTable.parse(line)).contains(row);
    }
}
