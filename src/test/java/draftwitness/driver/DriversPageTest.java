package draftwitness.driver;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Executes the example of docs/drivers.md as it stands there. */
class DriversPageTest {
    private String page;

    @TempDir
    Path folder;

    @BeforeEach
    void read() throws IOException {
        page = Files.readString(Path.of("docs/drivers.md"));
    }

    private List<String> blocks(String language) {
        List<String> out = new ArrayList<>();
        String open = "```" + language + "\n";
        for (int at = page.indexOf(open); at >= 0; at = page.indexOf(open, at + 1)) {
            int from = at + open.length();
            out.add(page.substring(from, page.indexOf("```", from)));
        }
        return out;
    }

    private Driver driver(String toml) throws Exception {
        return DriverCatalog.fromFile(
                Files.writeString(folder.resolve("green-label.toml"), toml).toString());
    }

    @Test
    void givenBytesOfThePage_whenDecodedByItsDriver_thenAllSixMessagesAreRead() throws Exception {
        byte[] bytes = Hex.bytes(blocks("hex").get(0).replace("\n", ""));
        DecodeLog log = Chunking.decode(driver(blocks("toml").get(0)), bytes);

        assertThat(log.readings)
                .containsExactly(
                        "0: 0.3 Pa",
                        "1: 23.2 degC",
                        "0: 0.5 Pa",
                        "1: 23.2 degC",
                        "0: -0.2 Pa",
                        "1: 23.2 degC",
                        "0: -980.4 Pa",
                        "1: 23.3 degC",
                        "0: -980.9 Pa",
                        "1: 23.3 degC",
                        "0: -980.7 Pa",
                        "1: 23.2 degC");
        assertThat(log.faults).isEmpty();
    }

    @Test
    void givenBytesOfThePage_whenTraced_thenTheTraceBeginsAsThePageShows() throws Exception {
        byte[] bytes = Hex.bytes(blocks("hex").get(0).replace("\n", ""));
        List<String> lines =
                DecodeTrace.of(driver(blocks("toml").get(0)), bytes, "").lines(bytes);

        assertThat(String.join("\n", lines)).startsWith(blocks("text").get(0).strip());
    }

    @Test
    void givenTextDriverOfThePage_whenDecoded_thenBothReadingsCome() throws Exception {
        DecodeLog log = Chunking.decode(driver(blocks("toml").get(1)), "\r\nP1:-0.95inWC T:23.1\r\n");

        assertThat(log.readings).containsExactly("0: -0.95 inH2O", "1: 23.1 degC");
    }

    @Test
    void givenTableOfShippedDrivers_whenRead_thenItNamesEveryOne() throws IOException {
        String readme = Files.readString(Path.of("drivers/README.md"));

        assertThat(DriverCatalog.shipped().list())
                .allSatisfy(e -> assertThat(readme).contains("| `" + e.name() + "` | `" + e.kind() + "` |"));
    }
}
