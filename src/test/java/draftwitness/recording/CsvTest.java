package draftwitness.recording;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import draftwitness.input.InputException;
import draftwitness.reading.Channel;
import draftwitness.reading.SessionHeader;
import draftwitness.reading.Slice;
import draftwitness.reading.Step;
import draftwitness.reading.Tap;
import draftwitness.reading.Unit;
import java.io.ByteArrayOutputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.util.List;
import java.util.concurrent.CancellationException;
import java.util.concurrent.atomic.AtomicInteger;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.MethodSource;
import org.junit.jupiter.params.provider.ValueSource;

/** Tables in and out. */
class CsvTest {
    private static final long SECOND = 1_000_000_000;

    @TempDir
    Path folder;

    private Path csv;
    private Path recording;

    @BeforeEach
    void name() {
        csv = folder.resolve("a.csv");
        recording = folder.resolve("a.dwrec");
    }

    private static String export(Path recording, ExportOptions options) throws Exception {
        ByteArrayOutputStream out = new ByteArrayOutputStream();
        try (RecordingFile file = RecordingFile.open(recording)) {
            TableExport.toStream(file, out, TableFormat.CSV, options, Progress.NONE);
        }
        return out.toString(StandardCharsets.UTF_8);
    }

    private String importAndExport(String text) throws Exception {
        Files.writeString(csv, text);
        TableImport.run(csv, recording, ImportOptions.NONE, Progress.NONE);
        return export(recording, ExportOptions.ALL);
    }

    @ParameterizedTest
    @ValueSource(longs = {1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12, 13, 14, 15, 16})
    void givenAnyRecording_whenExportedImportedAndExported_thenTheTablesAreIdentical(long seed) throws Exception {
        long[] timeSteps = {100_000, 1_000_000, 250, 1};
        SessionHeader header = RandomSessions.header(timeSteps[(int) seed % 4]);
        List<Slice> slices = RandomSessions.tame(header, seed, seed * 10, 300);
        Path original = RoundTripTest.record(folder.resolve("original.dwrec"), header, slices);
        for (boolean instants : new boolean[] {false, true}) {
            ExportOptions options = new ExportOptions(Long.MIN_VALUE, Long.MAX_VALUE, instants, false);
            String first = export(original, options);
            Files.writeString(csv, first);
            TableImport.run(csv, recording, ImportOptions.NONE, Progress.NONE);
            assertThat(export(recording, options)).as("seed %d", seed).isEqualTo(first);
            assertThat(first.lines().count()).isGreaterThan(100);
            Files.delete(recording);
        }
    }

    @Test
    void givenATable_whenImported_thenEachNumberKeepsItsColumnsDecimals() throws Exception {
        String text = """
                time_s,draft.switch [Pa],contact.switch [1],gas.manifold [inH2O]
                0.000,-250.1,0,
                0.020,-250.0,,3.500
                10.040,,1,-0.125
                1000000.060,0.0,,
                """;
        assertThat(importAndExport(text)).isEqualTo(text);
        try (RecordingFile file = RecordingFile.open(recording)) {
            Channel draft = file.channelAt(Tap.DRAFT_SWITCH).orElseThrow();
            assertThat(file.header().start()).isNull();
            assertThat(file.header().timeStepNanos()).isEqualTo(1_000_000);
            assertThat(file.decimals(draft)).isEqualTo(1);
            assertThat(file.read(draft, 0, SECOND).values()).containsExactly(-250.1, -250.0);
            assertThat(file.lastNanos()).hasValue(1_000_000_060_000_000L);
        }
    }

    @Test
    void givenWindowsOddities_whenImported_thenTheyAreTaken() throws Exception {
        String text = "\uFEFF\"time_s\", draft.switch [Pa] \r\n 1.5 , \"-2.50\"\r\n+2.5,1e1\r\n3.5,.5\r\n\r\n\r\n";
        assertThat(importAndExport(text)).isEqualTo("time_s,draft.switch [Pa]\n1.5,-2.50\n2.5,10.00\n3.5,0.50\n");
    }

    @Test
    void givenTimesFarFromZero_whenImported_thenTheyStayAsGiven() throws Exception {
        String text = "time_s,draft.switch [Pa]\n1768687800.25,-1\n1768687800.50,-2\n";
        assertThat(importAndExport(text)).isEqualTo(text);
    }

    @Test
    void givenNegativeTimes_whenImported_thenTheyStayAsGiven() throws Exception {
        String text = "time_s,draft.switch [Pa]\n-1.05,-1\n-0.05,-2\n0.00,-3\n";
        assertThat(importAndExport(text)).isEqualTo(text);
    }

    @Test
    void givenOnlyAHeader_whenImported_thenTheRecordingIsEmpty() throws Exception {
        String text = "time_s,draft.switch [Pa]\n";
        assertThat(importAndExport(text)).isEqualTo(text);
    }

    @Test
    void givenChannelsInTurns_whenTheirLinesAreOutOfOrder_thenExportSortsThem() throws Exception {
        assertThat(importAndExport("time_s,draft.switch [Pa],gas.inlet [Pa]\n5.0,1,\n4.0,,2\n5.0,,3\n"))
                .isEqualTo("time_s,draft.switch [Pa],gas.inlet [Pa]\n4.0,,2\n5.0,1,3\n");
    }

    @Test
    void givenInstants_whenImported_thenTheStartIsTheFirstOne() throws Exception {
        Files.writeString(csv, """
                time,draft.switch [Pa]
                2026-01-17T23:10:00.5+01:00,-1
                2026-01-17T22:10:01.25Z,-2
                """);
        TableImport.run(csv, recording, ImportOptions.NONE, Progress.NONE);
        try (RecordingFile file = RecordingFile.open(recording)) {
            assertThat(file.header().start()).isEqualTo(Instant.parse("2026-01-17T22:10:00.5Z"));
            assertThat(file.lastNanos()).hasValue(750_000_000);
        }
        assertThat(export(recording, new ExportOptions(Long.MIN_VALUE, Long.MAX_VALUE, true, false)))
                .isEqualTo("""
                time,draft.switch [Pa]
                2026-01-17T22:10:00.50Z,-1
                2026-01-17T22:10:01.25Z,-2
                """);
        assertThat(export(recording, ExportOptions.ALL)).isEqualTo("time_s,draft.switch [Pa]\n0.00,-1\n0.75,-2\n");
    }

    @Test
    void givenAWindow_whenExported_thenItIsHalfOpen() throws Exception {
        importAndExport("time_s,draft.switch [Pa]\n0.0,-1\n1.0,-2\n2.0,-3\n");
        assertThat(export(recording, new ExportOptions(SECOND, 2 * SECOND, false, false)))
                .isEqualTo("time_s,draft.switch [Pa]\n1.0,-2\n");
    }

    @Test
    void givenAnUnknownStart_whenInstantsAreWanted_thenItIsRefused() throws Exception {
        importAndExport("time_s,draft.switch [Pa]\n0.0,-1\n");
        assertThatThrownBy(() -> export(recording, new ExportOptions(0, 1, true, false)))
                .isInstanceOf(InputException.class)
                .hasMessageContaining("start is not known");
    }

    @ParameterizedTest
    @MethodSource("badTables")
    void givenAMistake_whenImported_thenItsLineIsNamedAndNothingIsLeft(String text, int line, String word)
            throws Exception {
        Files.writeString(csv, text);
        assertThatThrownBy(() -> TableImport.run(csv, recording, ImportOptions.NONE, Progress.NONE))
                .isInstanceOf(InputException.class)
                .hasMessageStartingWith(csv + ":" + line + ": ")
                .hasMessageContaining(word);
        assertThat(RoundTripTest.filesIn(folder)).containsExactly(csv);
    }

    static Object[][] badTables() {
        String head = "time_s,draft.switch [Pa],gas.inlet [Pa]\n";
        return new Object[][] {
            {"", 1, "empty"},
            {"t,draft.switch [Pa]\n", 1, "time_s"},
            {"time_s\n", 1, "no column"},
            {"time_s,draft.switch\n", 1, "role with its unit"},
            {"time_s,draft.stack [Pa]\n", 1, "'draft.stack' is not a role"},
            {"time_s,draft.switch [bar]\n", 1, "'bar' is not a unit"},
            {"time_s,draft.switch [uA]\n", 1, "cannot be in uA"},
            {"time_s,draft.switch [Pa],draft.switch [hPa]\n", 1, "two columns"},
            {head + "0,1,2\n1,2\n", 3, "only 2 of the header's 3 cells"},
            {head + "0,1,2\n1,2,3,4\n", 3, "4 cells, the header has 3 cells"},
            {head + "0,1,2\n\n1,2,3\n", 3, "blank line"},
            {head + "0,1,2\n1,x,3\n", 3, "column draft.switch [Pa]: 'x'"},
            {head + "0,1,2\n1,1,3\u00a0\u2212\n", 3, "column gas.inlet [Pa]"},
            {head + "0,1,2\n1,\"1,3\n", 3, "quote"},
            {head + "0,1,2\n0,1,\n", 3, "does not follow"},
            {head + "1,1,2\n0.5,,2\n", 3, "does not follow"},
            {head + ",1,2\n", 2, "time is missing"},
            {head + "1e300,1,2\n", 2, "not a number"},
            {head + "9300000000,1,2\n", 2, "146 years"},
            {head + "0,1,2\n99999999,1,2\n", 3, "more than a year"},
            {head + "0,NaN,2\n", 2, "'NaN'"},
            {head + "0,1234567890123456789,2\n1,1.5,2\n", 2, "too many digits"},
            {"time,draft.switch [Pa]\n2026-01-17T22:10:00,1\n", 2, "zone"},
            {"time,draft.switch [Pa]\n17.1.2026,1\n", 2, "not an instant"},
        };
    }

    @Test
    void givenATableWithInstants_whenAStartIsGivenToo_thenItIsRefused() throws Exception {
        Files.writeString(csv, "time,draft.switch [Pa]\n2026-01-17T22:10:00Z,1\n");
        assertThatThrownBy(
                        () -> TableImport.run(csv, recording, new ImportOptions(Instant.EPOCH, "", ""), Progress.NONE))
                .isInstanceOf(InputException.class)
                .hasMessageContaining("leave the start out");
    }

    @Test
    void givenAMissingTable_whenImported_thenOneLineSaysSo() {
        assertThatThrownBy(() -> TableImport.run(csv, recording, ImportOptions.NONE, Progress.NONE))
                .isInstanceOf(InputException.class)
                .hasMessage(csv + ": no such file");
    }

    @ParameterizedTest
    @CsvSource({"true", "false"})
    void givenLongWork_whenStopped_thenNothingIsLeft(boolean importing) throws Exception {
        StringBuilder text = new StringBuilder("time_s,draft.switch [Pa]\n");
        for (int i = 0; i < 30_000; i++) {
            text.append(i).append(",1\n");
        }
        Files.writeString(csv, text);
        if (!importing) {
            TableImport.run(csv, recording, ImportOptions.NONE, Progress.NONE);
        }
        List<Path> before = RoundTripTest.filesIn(folder);
        AtomicInteger reports = new AtomicInteger();
        Progress stopping = fraction -> reports.incrementAndGet() < 2;
        assertThatThrownBy(() -> {
                    if (importing) {
                        TableImport.run(csv, recording, ImportOptions.NONE, stopping);
                    } else {
                        try (RecordingFile file = RecordingFile.open(recording)) {
                            TableExport.toFile(
                                    file, folder.resolve("out.csv"), TableFormat.CSV, ExportOptions.ALL, stopping);
                        }
                    }
                })
                .isInstanceOf(CancellationException.class);
        assertThat(reports).hasValue(2);
        assertThat(RoundTripTest.filesIn(folder)).isEqualTo(before);
    }

    @Test
    void givenTheRecordingsOwnName_whenExported_thenItIsRefused() throws Exception {
        importAndExport("time_s,draft.switch [Pa]\n0.0,-1\n");
        byte[] before = Files.readAllBytes(recording);
        try (RecordingFile file = RecordingFile.open(recording)) {
            assertThatThrownBy(() ->
                            TableExport.toFile(file, recording, TableFormat.CSV, ExportOptions.ALL, Progress.NONE))
                    .isInstanceOf(RecordingException.class)
                    .hasMessageContaining("the recording itself");
        }
        assertThat(Files.readAllBytes(recording)).isEqualTo(before);
    }

    @Test
    void givenAFile_whenExportedOverAnOlderOne_thenItTakesItsPlace() throws Exception {
        String text = "time_s,draft.switch [Pa]\n0.0,-1\n";
        importAndExport(text);
        Path target = folder.resolve("out.csv");
        Files.writeString(target, "old");
        try (RecordingFile file = RecordingFile.open(recording)) {
            TableExport.toFile(file, target, TableFormat.CSV, ExportOptions.ALL, Progress.NONE);
        }
        assertThat(Files.readString(target)).isEqualTo(text);
        assertThat(RoundTripTest.filesIn(folder)).containsExactly(csv, recording, target);
    }

    @Test
    void givenStepsOfOtherUnits_whenExported_thenDecimalsKeepTheirResolution() {
        // 0.1 Pa is 0.00040 inH2O, 1 hPa is 0.40 inH2O (NIST SP 811: 249.0889 Pa)
        assertThat(Conversion.decimals(new Step(Unit.PASCAL, 1), Unit.INCH_OF_WATER))
                .isEqualTo(4);
        assertThat(Conversion.decimals(new Step(Unit.HECTOPASCAL, 0), Unit.INCH_OF_WATER))
                .isEqualTo(1);
        StringBuilder out = new StringBuilder();
        Conversion.append(out, -2491, new Step(Unit.PASCAL, 1), Unit.INCH_OF_WATER, 4);
        assertThat(out).hasToString("-1.0000");
    }
}
