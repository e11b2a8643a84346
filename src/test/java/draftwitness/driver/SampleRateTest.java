package draftwitness.driver;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import draftwitness.input.InputException;
import draftwitness.reading.Chunk;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class SampleRateTest {
    private static final String READING = "\n[[reading]]\nname = \"pressure\"\nunit = \"Pa\"\n";

    @TempDir
    Path folder;

    private Driver driver(String rest) throws Exception {
        Path file = folder.resolve("mine.toml");
        Files.writeString(file, "title = \"t\"\nkind = \"line\"\n" + rest);
        return DriverCatalog.fromFile(file.toString());
    }

    private static DecodeLog log(Driver driver, String text) {
        DecodeLog log = new DecodeLog();
        byte[] bytes = text.getBytes(StandardCharsets.US_ASCII);
        driver.newListener().decode(new Chunk(bytes, 0, bytes.length, 5), log);
        return log;
    }

    @Test
    void givenNoTable_whenRead_thenNoPaceIsDeclared() throws Exception {
        assertThat(DriverCatalog.shipped().find("ascii-line").sampleRate()).isEmpty();
    }

    @Test
    void givenCounterColumn_whenLinesAreRead_thenTheCounterComesBeforeItsReading() throws Exception {
        Driver driver = driver("[samples]\nrate-hz = 50\n[line]\nseparator = \"comma\"\n"
                + "[line.counter]\ncolumn = 1\nbits = 8\n" + READING + "column = 2\n");
        assertThat(driver.sampleRate()).isEqualTo(Optional.of(new SampleRate(50, SampleRate.By.COUNTER)));
        DecodeLog log = log(driver, "255,-1.5\n0,-1.6\n256,-1.7\n-1,-1.8\n1.0,-1.9\n");
        assertThat(log.events)
                .startsWith("counter 255 of 8 bits", "0: -1.5 Pa", "message 9", "counter 0 of 8 bits", "0: -1.6 Pa")
                .noneMatch(e -> e.contains("-1.7") || e.contains("-1.8") || e.contains("-1.9"));
        assertThat(log.faults.get(Fault.NOT_A_READING)).isEqualTo(3); // a counter that cannot be is damage
    }

    @Test
    void givenCounterGroup_whenLineMatches_thenItIsTaken() throws Exception {
        Driver driver = driver("[samples]\nrate-hz = 12.5\n[line]\npattern = '#(?<counter>\\d+) (?<value>\\S+)'\n"
                + "[line.counter]\nbits = 16\n" + READING);
        assertThat(log(driver, "#7 -1.5\n").events).contains("counter 7 of 16 bits", "0: -1.5 Pa");
    }

    @Test
    void givenSteadyPaceWithoutCounter_whenDeclaredByOrder_thenItIs() throws Exception {
        Driver driver = driver("[samples]\nrate-hz = 10\nby = \"order\"\n" + READING);
        assertThat(driver.sampleRate()).isEqualTo(Optional.of(new SampleRate(10, SampleRate.By.ORDER)));
    }

    @Test
    void givenCounterDeclaredButNowhereToBeFound_whenRead_thenToldWhatIsMissing() {
        assertThatThrownBy(() -> driver("[samples]\nrate-hz = 10\n" + READING))
                .isInstanceOf(InputException.class)
                .hasMessageContaining("mine.toml:3")
                .hasMessageContaining("[frame.counter]");
        assertThatThrownBy(() -> driver("[samples]\nrate-hz = -1\nby = \"order\"\n" + READING))
                .hasMessageContaining("samples.rate-hz");
        assertThatThrownBy(() -> driver("[line.counter]\nbits = 8\n" + READING)).hasMessageContaining("column");
    }
}
