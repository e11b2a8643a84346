package draftwitness.recording;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import com.sun.management.ThreadMXBean;
import draftwitness.input.InputException;
import java.io.RandomAccessFile;
import java.lang.management.ManagementFactory;
import java.nio.charset.Charset;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/** Tables that were saved the wrong way, and tables that want to do harm: one clear line, and nothing is left. */
class HostileCsvTest {
    private static final String HEAD = "time_s,draft.switch [Pa],gas.inlet [Pa]\n";
    private static final long HUGE_BYTES = 100_000_000;
    private static final long MOST_MEMORY_BYTES = 20_000_000;

    @TempDir
    Path folder;

    private Path csv;
    private Path recording;

    @BeforeEach
    void name() {
        csv = folder.resolve("a.csv");
        recording = folder.resolve("a.dwrec");
    }

    private void isRefused(int line, String words) throws Exception {
        assertThatThrownBy(() -> TableImport.run(csv, recording, ImportOptions.NONE, Progress.NONE))
                .isInstanceOf(InputException.class)
                .hasMessageStartingWith(csv + ":" + line + ": ")
                .hasMessageContaining(words)
                .message()
                .hasSizeLessThan(csv.toString().length() + 1000)
                .doesNotContainPattern("\\p{Cntrl}");
        assertThat(RoundTripTest.filesIn(folder)).containsExactly(csv);
    }

    @ParameterizedTest
    @MethodSource("savedTheWrongWay")
    void givenATableOfAnotherCountry_whenImported_thenTheLineSaysWhatToDo(String text, int line, String words)
            throws Exception {
        Files.writeString(csv, text);
        isRefused(line, words);
    }

    static Object[][] savedTheWrongWay() {
        return new Object[][] {
            {"time_s;draft.switch [Pa]\n0,5;-1,2\n", 1, "separated by semicolons; save the table with commas"},
            {"\uFEFFtime_s;draft.switch [Pa]\r\n0;1\r\n", 1, "separated by semicolons"},
            {"time_s\tdraft.switch [Pa]\n0\t1\n", 1, "separated by tabs"},
            {"sep=;\ntime_s;draft.switch [Pa]\n", 1, "'sep=' is a note to spreadsheet programs; remove it"},
            {"sep=,\ntime_s,draft.switch [Pa]\n", 1, "'sep=' is a note to spreadsheet programs; remove it"},
            {HEAD + "0,1,2\n0,5,1,2,2,5\n", 3, "6 cells, the header has 3 cells; if the numbers have decimal commas"},
            {HEAD + "0.5,\"-1,25\",2\n", 2, "'-1,25' has a decimal comma; write the numbers with points, such as -1.25"
            },
            {HEAD + "\"0,5\",1,2\n", 2, "column time_s: '0,5' has a decimal comma"},
            {HEAD + "0;1;2\n", 2, "separate the cells by commas, not by semicolons"},
            {"PK\003\004\0\0", 1, "a spreadsheet's own file"},
        };
    }

    @Test
    void givenUtf16_whenImported_thenTheLineSaysSo() throws Exception {
        for (Charset charset : new Charset[] {StandardCharsets.UTF_16LE, StandardCharsets.UTF_16BE}) {
            Files.writeString(csv, "\uFEFF" + HEAD + "0,1,2\n", charset);
            isRefused(1, "UTF-16");
        }
    }

    @ParameterizedTest
    @MethodSource("hostile")
    void givenAHostileTable_whenImported_thenOneLineNamesThePlace(String text, int line, String words)
            throws Exception {
        Files.writeString(csv, text);
        isRefused(line, words);
    }

    static Object[][] hostile() {
        String many = "time_s" + ",draft.switch [Pa]".repeat(3000) + "\n";
        StringBuilder late = new StringBuilder(HEAD);
        for (int i = 0; i < 5000; i++) {
            late.append(i).append(",1,2\n");
        }
        return new Object[][] {
            {"", 1, "the table is empty"},
            {"\uFEFF", 1, "time_s"},
            {"\n\n\n", 1, "empty"},
            {HEAD + "0,=1+1,2\n", 2, "column draft.switch [Pa]: '=1+1' is not a number"},
            {HEAD + "0,@SUM(A1),2\n", 2, "'@SUM(A1)' is not a number"},
            {HEAD + "0,\"=HYPERLINK(\"\"x\"\")\",2\n", 2, "a quote within the cell"},
            {"=cmd,draft.switch [Pa]\n0,1\n", 1, "the first column is '=cmd'"},
            {HEAD + "0,\"1\n1,2,3\n", 2, "the quote has no end"},
            {HEAD + "0,1\0,2\n", 2, "is not a number"},
            {"time_s\0,draft.switch [Pa]\n", 1, "the first column is"},
            {"\0\0\0\0", 1, "the first column is"},
            {HEAD + "0,\u001B[2J\u0007,2\n", 2, "is not a number"},
            {HEAD + "0," + "9".repeat(60_000) + ",2\n", 2, "is not a number"},
            {HEAD + "0,1e999999999,2\n", 2, "is not a number"},
            {HEAD + "0,1,2\r1,1,2\r", 2, "column gas.inlet [Pa]"},
            {"time_s," + "x".repeat(50_000) + " [Pa]\n", 1, "is not a role"},
            {"time_s,draft\u001B[2J [Pa]\n", 1, "is not a role"},
            {many, 1, "two columns for draft.switch"},
            {late + "5000,x,2\n", 5002, "'x' is not a number"},
            {late + "5000,1.5,2\n5001,1\n", 5003, "only 2 of the header's 3 cells"},
        };
    }

    @Test
    void givenOneHugeLine_whenImported_thenItIsRefusedWithLittleMemory() throws Exception {
        for (String start : new String[] {"", HEAD, HEAD + "0,1,2\n1,2,"}) {
            Files.writeString(csv, start);
            try (RandomAccessFile file = new RandomAccessFile(csv.toFile(), "rw")) {
                file.setLength(HUGE_BYTES); // the rest is zeros without a line's end
            }
            ThreadMXBean threads = (ThreadMXBean) ManagementFactory.getThreadMXBean();
            long before = threads.getCurrentThreadAllocatedBytes();
            isRefused(1 + (int) start.lines().filter(l -> !l.endsWith(",")).count(), "longer than 65536 bytes");
            assertThat(threads.getCurrentThreadAllocatedBytes() - before).isLessThan(MOST_MEMORY_BYTES);
        }
    }
}
