package draftwitness.driver;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import draftwitness.input.InputException;
import draftwitness.reading.Tap;
import draftwitness.reading.Unit;
import java.io.IOException;
import java.io.OutputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.List;
import java.util.jar.JarEntry;
import java.util.jar.JarOutputStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class DriverCatalogTest {
    @TempDir
    Path folder;

    private static final String LINE = "title = \"t\"\nkind = \"line\"\n[[reading]]\nname = \"p\"\nunit = \"Pa\"\n";

    private Driver load(String text) throws InputException, IOException {
        return DriverCatalog.fromFile(write("mine.toml", text).toString());
    }

    private Path write(String name, String text) throws IOException {
        return Files.writeString(folder.resolve(name), text);
    }

    @Test
    void givenShippedDrivers_whenListed_thenEveryOneIsUsableAndNoneIsForgotten() throws IOException {
        List<DriverCatalog.Entry> entries = DriverCatalog.shipped().list();

        assertThat(entries).allSatisfy(e -> assertThat(e.problem()).isEmpty());
        try (var files = Files.list(Path.of("drivers"))) {
            assertThat(entries.stream().map(e -> e.name() + ".toml"))
                    .containsExactlyInAnyOrderElementsOf(
                            files.map(f -> f.getFileName().toString())
                                    .filter(n -> n.endsWith(".toml"))
                                    .toList());
        }
    }

    @Test
    void givenJar_whenListed_thenItsDescriptionsAreFound() throws IOException {
        Path jar = folder.resolve("program.jar");
        try (OutputStream out = Files.newOutputStream(jar);
                JarOutputStream jarOut = new JarOutputStream(out)) {
            jarOut.putNextEntry(new JarEntry("drivers/a.toml"));
            jarOut.write(LINE.getBytes(StandardCharsets.UTF_8));
            jarOut.putNextEntry(new JarEntry("drivers/README.md"));
        }

        assertThat(ShippedDrivers.fromJar(jar)).extracting(Description::name).containsExactly("a");
    }

    @Test
    void givenSimulatedHouse_whenRead_thenItHasAReadingForEveryTap() throws InputException {
        assertThat(DriverCatalog.shipped().find("simulated-house").readings())
                .extracting(ReadingSpec::name)
                .containsExactlyElementsOf(
                        Arrays.stream(Tap.values()).map(Tap::role).toList());
    }

    @Test
    void givenUnknownName_whenAsked_thenCloseAndKnownNamesAreTold() {
        assertThatThrownBy(() -> DriverCatalog.shipped().find("asci-line"))
                .isInstanceOf(InputException.class)
                .hasMessageContaining("there is no driver 'asci-line'; did you mean ascii-line?")
                .hasMessageContaining("ascii-table");
    }

    @ParameterizedTest
    @CsvSource(delimiter = '|', textBlock = """
            # asked                           | told
            ascii-line?units=Pa               | 'ascii-line?units=Pa': the driver has no parameter 'units'; it has: unit decimal-comma end
            ascii-line?decimal-comma=yes      | 'ascii-line?decimal-comma=yes': decimal-comma=yes is neither true nor false
            ascii-table?columns=three         | 'ascii-table?columns=three': columns=three is not a whole number (default 0)
            ascii-table?columns=99            | shipped drivers/ascii-table.toml:22: line.columns: must be a whole number from 0 to 64
            ascii-line?unit=furlong           | shipped drivers/ascii-line.toml:16: reading.unit: 'furlong' is not a unit; known: Pa
            simulated-house?a=1               | it has none
            """)
    void givenWrongOverride_whenAsked_thenTheMessageSaysWhatWouldDo(String asked, String told) {
        assertThatThrownBy(() -> DriverCatalog.shipped().find(asked))
                .isInstanceOf(InputException.class)
                .hasMessageContaining(told);
    }

    @Test
    void givenOverriddenUnit_whenAsked_thenTheReadingHasIt() throws InputException {
        Driver driver = DriverCatalog.shipped().find("ascii-line?unit=inH2O");

        assertThat(driver.readings()).containsExactly(new ReadingSpec("pressure", Unit.INCH_OF_WATER));
        assertThat(driver.name()).isEqualTo("ascii-line");
        assertThat(driver.description()).contains("[[reading]]");
    }

    @Test
    void givenFolderWithTheSameName_whenListed_thenItWinsAndSaysWhatItShadows() throws InputException, IOException {
        write("ascii-line.toml", LINE.replace("\"t\"", "\"mine\""));
        write("broken.toml", "title = \n");
        DriverCatalog catalog = DriverCatalog.with(List.of(folder));

        assertThat(catalog.find("ascii-line").title()).isEqualTo("mine");
        assertThat(catalog.list())
                .filteredOn(e -> e.name().equals("ascii-line"))
                .first()
                .satisfies(e -> assertThat(e.shadows()).isEqualTo("shipped drivers/ascii-line.toml"));
        assertThat(catalog.list())
                .filteredOn(e -> e.name().equals("broken"))
                .first()
                .satisfies(e -> assertThat(e.problem()).contains("broken.toml:1:"));
    }

    @ParameterizedTest
    @CsvSource(delimiter = '|', textBlock = """
            # from          | to                                   | told
            kind = "line"   | kind = "lines"                       | mine.toml:2: kind: 'lines' is not a kind; known: line
            title = "t"     | titel = "t"                          | 'title' is missing
            unit = "Pa"     | unit = "Pa"@colour = "red"           | mine.toml:6: reading.colour: unknown key
            name = "p"      | name = "p p"                         | mine.toml:4: reading.name: 'p p' must be letters
            unit = "Pa"     | unit = "Pa"@pattern = '(?<value>'    | mine.toml:6: reading.pattern: not a regular expression
            unit = "Pa"     | unit = "Pa"@pattern = 'a'            | mine.toml:3: [reading] the pattern has no group (?<value>...)
            unit = "Pa"     | unit = "$u"                          | mine.toml:5: $u is not declared under [parameters]
            kind = "line"   | kind = "line"@[parameters]@a = 1     | parameter 'a' is declared but nothing refers to $a
            kind = "line"   | kind = "line"@[line]@longest = 5     | mine.toml:4: line.longest: must be a whole number from 8
            unit = "Pa"     | unit = "Pa"@[[reading]]@name = "p"   | mine.toml:7: reading.name: 'p' is used twice
            """)
    void givenDescriptionWithAMistake_whenRead_thenFileLineAndKeyAreNamed(String from, String to, String told) {
        assertThatThrownBy(() -> load(LINE.replace(from, to.replace("@", "\n"))))
                .isInstanceOf(InputException.class)
                .hasMessageContaining(told);
    }

    @Test
    void givenMissingFolder_whenAsked_thenItIsNamed() {
        assertThatThrownBy(() -> DriverCatalog.with(List.of(folder.resolve("none"))))
                .isInstanceOf(InputException.class)
                .hasMessageContaining("no such folder");
    }

    @Test
    void givenPatternThatBacktracksForEver_whenDecoded_thenTheLineIsGivenUp() throws InputException, IOException {
        Driver driver = load(LINE + "pattern = '(x+x+)+(?<value>[0-9]+)'\n");

        assertThat(Chunking.run(driver, List.of(("\n" + "x".repeat(200) + "\n").getBytes(StandardCharsets.US_ASCII)))
                        .faults)
                .containsEntry(Fault.NOT_A_READING, 1);
    }

    @Test
    void givenParameterWithinText_whenSettled_thenItsCharactersAreThere() throws InputException, IOException {
        Driver driver = DriverCatalog.fromFile(write(
                        "mine.toml",
                        LINE.replace("[[reading]]", "[parameters]\nlead = \"P\"\n[[reading]]")
                                + "pattern = '${lead}=(?<value>.*)'\n")
                + "?lead=DP");

        assertThat(Chunking.decode(driver, "\nDP=-5.0 Pa\nP=-6\n").readings).containsExactly("0: -5.0 Pa");
    }

    @Test
    void givenListOfUnits_whenAnotherUnitComes_thenTheLineIsDropped() throws InputException, IOException {
        Driver driver = load(LINE + "units = [\"Pa\", \"kPa\"]\n");

        assertThat(Chunking.decode(driver, "\n-5 Pa\n-5hPa\n-5 kPa\n-6\n").readings)
                .containsExactly("0: -5 Pa", "0: -5 kPa", "0: -6 Pa");
    }

    @Test
    void givenVariantsForGuessing_whenAskedFor_thenEachIsUsable() throws InputException {
        DriverCatalog catalog = DriverCatalog.shipped();

        assertThat(catalog.variants()).contains("ascii-line?decimal-comma=true");
        for (String variant : catalog.variants()) {
            assertThat(catalog.find(variant).readings()).as(variant).isNotEmpty();
        }
    }
}
