package draftwitness.recording;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import draftwitness.input.InputException;
import draftwitness.reading.SessionHeader;
import java.io.ByteArrayOutputStream;
import java.math.BigDecimal;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.DriverManager;
import java.sql.ResultSet;
import java.sql.Statement;
import java.time.Instant;
import java.time.OffsetDateTime;
import java.util.List;
import java.util.Random;
import java.util.concurrent.CancellationException;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/** Tables in the Parquet format, out and in, with DuckDB as the other engine. */
class ParquetTest {
    private static final ExportOptions INSTANTS = new ExportOptions(Long.MIN_VALUE, Long.MAX_VALUE, true, false);

    @TempDir
    Path folder;

    private Path parquet;
    private Path recording;

    @BeforeEach
    void name() {
        parquet = folder.resolve("a.parquet");
        recording = folder.resolve("a.dwrec");
    }

    private static byte[] export(Path recording, TableFormat format, ExportOptions options) throws Exception {
        ByteArrayOutputStream out = new ByteArrayOutputStream();
        try (RecordingFile file = RecordingFile.open(recording)) {
            TableExport.toStream(file, out, format, options, Progress.NONE);
        }
        return out.toByteArray();
    }

    private Path imported(Path table, String name) throws Exception {
        Path target = folder.resolve(name);
        TableImport.run(table, target, ImportOptions.NONE, Progress.NONE);
        return target;
    }

    private Path random(long seed, long timeStepNanos) throws Exception {
        SessionHeader header = RandomSessions.header(timeStepNanos);
        return RoundTripTest.record(
                folder.resolve("original" + seed + ".dwrec"),
                header,
                RandomSessions.tame(header, seed, seed * 10, 300));
    }

    @ParameterizedTest
    @ValueSource(longs = {1, 2, 3, 4, 5, 6, 7, 8})
    void givenAnyRecording_whenExportedImportedAndExported_thenTheFilesAreIdentical(long seed) throws Exception {
        long[] timeSteps = {100_000, 1_000_000, 250, 1};
        Path original = random(seed, timeSteps[(int) seed % 4]);
        for (ExportOptions options : List.of(ExportOptions.ALL, INSTANTS)) {
            byte[] first = export(original, TableFormat.PARQUET, options);
            Files.write(parquet, first);
            Path again = imported(parquet, "again.dwrec");
            assertThat(export(again, TableFormat.PARQUET, options))
                    .as("seed %d", seed)
                    .isEqualTo(first);
            assertThat(text(again, ExportOptions.ALL)).isEqualTo(text(original, ExportOptions.ALL));
            try (RecordingFile a = RecordingFile.open(original);
                    RecordingFile b = RecordingFile.open(again)) {
                assertThat(b.header().start()).isEqualTo(a.header().start());
                assertThat(b.header().title()).isEqualTo(a.header().title());
                assertThat(b.header().setupToml()).isEqualTo(a.header().setupToml());
            }
            Files.delete(again);
        }
    }

    private static String text(Path recording, ExportOptions options) throws Exception {
        return new String(export(recording, TableFormat.CSV, options), StandardCharsets.UTF_8);
    }

    @Test
    void givenARecording_whenExportedToParquetAndReadByAnotherEngine_thenTheSameTableAsCsv() throws Exception {
        Path original = random(3, 1_000_000);
        Files.write(parquet, export(original, TableFormat.PARQUET, ExportOptions.ALL));
        List<String> lines = text(original, ExportOptions.ALL).lines().toList();
        try (Connection c = DriverManager.getConnection("jdbc:duckdb:");
                Statement s = c.createStatement();
                ResultSet r = s.executeQuery("SELECT * FROM '" + parquet + "'")) {
            StringBuilder header = new StringBuilder();
            int columns = r.getMetaData().getColumnCount();
            for (int i = 1; i <= columns; i++) {
                header.append(i == 1 ? "" : ",").append(r.getMetaData().getColumnName(i));
            }
            assertThat(header).hasToString(lines.get(0));
            int n = 0;
            for (; r.next(); n++) {
                StringBuilder line = new StringBuilder();
                for (int i = 1; i <= columns; i++) {
                    BigDecimal value = r.getBigDecimal(i);
                    line.append(i == 1 ? "" : ",").append(value == null ? "" : value.toPlainString());
                }
                assertThat(line).hasToString(lines.get(n + 1));
            }
            assertThat(n).isEqualTo(lines.size() - 1).isGreaterThan(100);
        }
    }

    @Test
    void givenInstants_whenReadByAnotherEngine_thenTheSameMomentsInUtc() throws Exception {
        Files.writeString(
                folder.resolve("t.csv"),
                "time,draft.switch [Pa]\n2026-01-17T22:10:00.250Z,-1.5\n2026-01-17T22:10:01.500Z,2.5\n");
        Path original = imported(folder.resolve("t.csv"), "t.dwrec");
        Files.write(parquet, export(original, TableFormat.PARQUET, INSTANTS));
        try (Connection c = DriverManager.getConnection("jdbc:duckdb:");
                Statement s = c.createStatement();
                ResultSet r =
                        s.executeQuery("SELECT time, typeof(time), \"draft.switch [Pa]\" FROM '" + parquet + "'")) {
            assertThat(r.next()).isTrue();
            assertThat(r.getString(2)).isEqualTo("TIMESTAMP WITH TIME ZONE");
            assertThat(r.getObject(1, OffsetDateTime.class).toInstant())
                    .isEqualTo(Instant.parse("2026-01-17T22:10:00.250Z"));
            assertThat(r.getBigDecimal(3)).isEqualTo(new BigDecimal("-1.5"));
            assertThat(r.next()).isTrue();
            assertThat(r.getObject(1, OffsetDateTime.class).toInstant())
                    .isEqualTo(Instant.parse("2026-01-17T22:10:01.500Z"));
        }
    }

    @Test
    void givenMoreRowsThanAGroup_whenExportedAndImported_thenAllComeBack() throws Exception {
        StringBuilder csv = new StringBuilder("time_s,draft.switch [Pa]\n");
        Random random = new Random(1);
        for (int i = 0; i < 300_000; i++) {
            csv.append(i / 100).append('.').append(i / 10 % 10).append(i % 10);
            csv.append(",-").append(200 + random.nextInt(50)).append(".5\n");
        }
        Files.writeString(folder.resolve("t.csv"), csv);
        Path original = imported(folder.resolve("t.csv"), "t.dwrec");
        Files.write(parquet, export(original, TableFormat.PARQUET, ExportOptions.ALL));
        assertThat(text(imported(parquet, "again.dwrec"), ExportOptions.ALL)).isEqualTo(csv.toString());
    }

    private void write(String query, String options) throws Exception {
        try (Connection c = DriverManager.getConnection("jdbc:duckdb:");
                Statement s = c.createStatement()) {
            s.execute("SET TimeZone='UTC'");
            s.execute("COPY (" + query + ") TO '" + parquet + "' (FORMAT parquet" + options + ")");
        }
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "",
                ", COMPRESSION zstd",
                ", COMPRESSION gzip",
                ", COMPRESSION uncompressed",
                ", COMPRESSION lz4_raw",
                ", PARQUET_VERSION v2",
                ", PARQUET_VERSION v2, COMPRESSION zstd, ROW_GROUP_SIZE 2048"
            })
    void givenAFileOfAnotherWriter_whenImported_thenItsNumbers(String options) throws Exception {
        write(
                "SELECT i / 50.0 AS time_s, CAST(i % 7 AS DOUBLE) / 10 - 25 AS \"draft.switch [Pa]\","
                        + " CAST(i % 3 AS FLOAT) / 4 AS \"gas.manifold [inH2O]\","
                        + " CASE WHEN i % 5 = 0 THEN NULL ELSE i % 2 = 1 END AS \"contact.switch [1]\","
                        + " CAST(i % 900 AS INTEGER) AS \"static.supply [Pa]\","
                        + " CAST(i % 11 AS DECIMAL(30, 2)) AS \"draft.vent [Pa]\" FROM range(0, 5000) t(i)",
                options);
        List<String> lines =
                text(imported(parquet, "b.dwrec"), ExportOptions.ALL).lines().toList();
        assertThat(lines).hasSize(5001);
        assertThat(lines.get(0))
                .isEqualTo(
                        "time_s,draft.switch [Pa],gas.manifold [inH2O],contact.switch [1],static.supply [Pa],draft.vent [Pa]");
        assertThat(lines.get(1)).isEqualTo("0.00,-25.0,0.00,,0,0.00");
        assertThat(lines.get(1 + 4321)).isEqualTo("86.42,-24.8,0.25,1,721,9.00");
    }

    @ParameterizedTest
    // spotless:off
    @CsvSource(delimiter = '|', textBlock = """
        SELECT 1 AS x                                                             | the first column is 'x'
        SELECT 1 AS time_s                                                        | no column with readings
        SELECT 1 AS time_s, 2 AS "drat.switch [Pa]"                               | did you mean draft.switch?
        SELECT 1 AS time_s, 'a' AS "draft.switch [Pa]"                            | does not hold numbers
        SELECT 1 AS time_s, [1, 2] AS "draft.switch [Pa]"                         | columns within columns
        SELECT NULL::INTEGER AS time_s, 2 AS "draft.switch [Pa]"                  | row 1: column time_s: the time is missing
        SELECT 1 AS time_s, 2 AS "draft.switch [Pa]" FROM range(0, 3)             | row 2: column draft.switch [Pa]: its time does not follow
        SELECT 1 AS time_s, 'inf'::DOUBLE AS "draft.switch [Pa]"                  | infinite
        SELECT TIMESTAMP '2026-01-17 22:10:00' AS time, 2 AS "draft.switch [Pa]"  | have no zone
        SELECT 12.5 AS time, 2 AS "draft.switch [Pa]"                             | seconds belong into a column time_s
        SELECT 1e15::DOUBLE AS time_s, 2 AS "draft.switch [Pa]"                   | more than 146 years
        SELECT 123456789012345678901234567890::DECIMAL(38,0) AS time_s, 2 AS "draft.switch [Pa]" | more than 63 bits
        """)
    // spotless:on
    void givenAFileThatIsNoTableOfReadings_whenImported_thenOneClearLineAndNothingLeft(String query, String told)
            throws Exception {
        write(query, "");
        assertThatThrownBy(() -> imported(parquet, "b.dwrec"))
                .isInstanceOf(InputException.class)
                .hasMessageStartingWith(parquet + ": ")
                .hasMessageContaining(told)
                .message()
                .satisfies(m -> assertThat(m.lines()).hasSize(1));
        assertThat(RoundTripTest.filesIn(folder)).containsExactly(parquet);
    }

    @Test
    void givenAnInstantsColumnOfAnotherWriter_whenImported_thenTheStart() throws Exception {
        write(
                "SELECT TIMESTAMPTZ '2026-01-17 22:10:00.5+00' + INTERVAL (i) SECOND AS time,"
                        + " i AS \"draft.switch [Pa]\" FROM range(0, 3) t(i)",
                "");
        try (RecordingFile file = RecordingFile.open(imported(parquet, "b.dwrec"))) {
            assertThat(file.header().start()).isEqualTo(Instant.parse("2026-01-17T22:10:00.500Z"));
            assertThat(file.lastNanos()).hasValue(2_000_000_000L);
        }
    }

    @Test
    void givenDamageAnywhere_whenImported_thenTheSameReadingsOrOneClearLine() throws Exception {
        Path original = random(2, 1_000_000);
        byte[] good = export(original, TableFormat.PARQUET, ExportOptions.ALL);
        Random random = new Random(5);
        int refused = 0;
        for (int round = 0; round < 80; round++) {
            byte[] bad = good.clone();
            if (round % 4 == 0) {
                bad = java.util.Arrays.copyOf(good, random.nextInt(good.length));
            } else {
                // Half of the damage goes to the description at the end, which is small beside the pages.
                int from = round % 2 == 0 ? 4 : good.length - 1500;
                for (int k = 0; k <= round % 3; k++) {
                    bad[from + random.nextInt(good.length - from)] ^= (byte) (1 << random.nextInt(8));
                }
            }
            Files.write(parquet, bad);
            try {
                Files.delete(imported(parquet, "b.dwrec"));
            } catch (InputException e) {
                refused++;
                assertThat(e.getMessage())
                        .as("round %d", round)
                        .startsWith(parquet.toString())
                        .doesNotContain("\n");
            }
            assertThat(RoundTripTest.filesIn(folder)).containsExactlyInAnyOrder(original, parquet);
        }
        assertThat(refused).isGreaterThan(40);
    }

    @Test
    void givenAFlippedBitInAPage_whenImported_thenItsChecksumTells() throws Exception {
        byte[] bytes = export(random(2, 1_000_000), TableFormat.PARQUET, ExportOptions.ALL);
        bytes[200] ^= 4; // amid the first column's page, whose header takes less than a hundred bytes
        Files.write(parquet, bytes);
        assertThatThrownBy(() -> imported(parquet, "b.dwrec"))
                .isInstanceOf(InputException.class)
                .hasMessageContaining("checksum");
    }

    @Test
    void givenProgressThatStops_whenExportingOrImporting_thenNothingIsLeft() throws Exception {
        Path original = random(4, 1_000_000);
        Files.write(parquet, export(original, TableFormat.PARQUET, ExportOptions.ALL));
        List<Path> before = RoundTripTest.filesIn(folder);
        assertThatThrownBy(() -> TableImport.run(parquet, recording, ImportOptions.NONE, fraction -> false))
                .isInstanceOf(CancellationException.class);
        try (RecordingFile file = RecordingFile.open(original)) {
            assertThatThrownBy(() -> TableExport.toFile(
                            file, folder.resolve("b.parquet"), TableFormat.PARQUET, ExportOptions.ALL, f -> false))
                    .isInstanceOf(CancellationException.class);
        }
        assertThat(RoundTripTest.filesIn(folder)).isEqualTo(before);
    }
}
