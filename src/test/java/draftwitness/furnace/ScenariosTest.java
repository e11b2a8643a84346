package draftwitness.furnace;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import draftwitness.input.InputException;
import draftwitness.setup.Setup;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.EnumSource;

final class ScenariosTest {
    private static final String MINIMAL = "[[sensor]]\ntap = \"draft.switch\"\n";

    @Test
    void givenFolder_thenIndexNamesEveryFileOnce() throws IOException {
        Path folder = Path.of("src/main/resources/scenarios");
        List<String> index = Files.readAllLines(folder.resolve("index.txt"));
        try (Stream<Path> files = Files.list(folder)) {
            assertThat(files.map(f -> f.getFileName().toString())
                            .filter(n -> n.endsWith(".toml"))
                            .map(n -> n.substring(0, n.length() - 5)))
                    .containsExactlyInAnyOrderElementsOf(index);
        }
    }

    @Test
    void givenBuiltInScenarios_thenEachHasItsOwnNameATitleALessonAndASwitchTap() {
        List<Scenario> all = Scenarios.list();
        assertThat(all).extracting(Scenario::name).doesNotHaveDuplicates().contains("demo-house");
        assertThat(all).allSatisfy(s -> {
            assertThat(s.title()).isNotBlank();
            assertThat(s.lesson()).isNotBlank().doesNotContain("\n");
            assertThat(Simulation.start(s, 1).sensors())
                    .anyMatch(sensor -> sensor.tap().role().equals("draft.switch"));
        });
    }

    @ParameterizedTest
    @EnumSource(Cause.class)
    void givenCause_thenThereIsAMildAndASevereScenario(Cause cause) throws InputException {
        for (String grade : List.of("-mild", "-severe")) {
            assertThat(Scenarios.find(cause.id() + grade).causes()).containsExactly(cause.id());
        }
        assertThat(severity(cause, "-mild")).isLessThan(severity(cause, "-severe"));
    }

    private static double severity(Cause cause, String grade) throws InputException {
        return Scenarios.find(cause.id() + grade).house().faults().get(0).severity();
    }

    @Test
    void givenEveryScenario_thenItsSetupTextIsAReadableSetupWithTheHousesRatings() throws InputException {
        for (Scenario s : Scenarios.list()) {
            Setup setup = Setup.parse(s.name(), s.setupText());
            Setup.PressureSwitch rating = setup.pressureSwitch();
            assertThat(rating).isNotNull();
            assertThat(rating.setPointPascals()).isCloseTo(s.house().rating().makePascals(), within(0.01));
            assertThat(setup.sequence().trialForIgnition())
                    .isEqualTo(s.house().sequence().trialForIgnition());
            assertThat(setup.inducerStages()).isEqualTo(s.house().flue().stages());
        }
    }

    @Test
    void givenOwnFile_whenFound_thenItsGradesCanBeChosen(@TempDir Path dir) throws Exception {
        Path file = dir.resolve("my-house.toml");
        Files.writeString(
                file,
                MINIMAL + "[[fault]]\ncause = \"vent-restricted\"\n[grade.a]\nseverity = 0.2\n"
                        + "[grade.b]\nseverity = 0.6\n");
        assertThat(Scenarios.find(file.toString()).name()).isEqualTo("my-house-a");
        Scenario b = Scenarios.find(file + "#b");
        assertThat(b.name()).isEqualTo("my-house-b");
        assertThat(b.house().faults().get(0).severity()).isEqualTo(0.6);
        assertThatThrownBy(() -> Scenarios.find(file + "#c")).hasMessageContaining("my-house-a my-house-b");
    }

    // Each wrong line, and what the message must name.
    @ParameterizedTest
    @CsvSource(delimiter = '|', textBlock = """
            [house]|colour = 1|house.colour
            [house]|wind-m-s = "strong"|house.wind-m-s
            [house]|wind-m-s = -1|house.wind-m-s
            [house]|switch-port = "roof"|house.switch-port
            [switch]|set-point = "0.6"|switch.set-point
            [switch]|differential = "9 inH2O"|switch.differential
            [gas]|kind = "coal"|gas.kind
            [sequence]|attempts = 0|sequence.attempts
            [[fault]]|cause = "gremlins"|fault.cause
            [[fault]]|severity = 0.5|needs a cause
            [[sensor]]|tap = "chimney"|sensor.tap
            [[sensor]]|tap = "draft.switch"|has an instrument already
            """)
    void givenWrongLine_whenRead_thenMessageNamesFileLineAndKey(String table, String line, String expected) {
        String text = MINIMAL + table + "\n" + line + "\n";
        assertThatThrownBy(() -> ScenarioReader.read("x", "x.toml", text))
                .isInstanceOf(InputException.class)
                .hasMessageStartingWith("x.toml:")
                .hasMessageContaining(expected)
                .message()
                .satisfies(
                        m -> assertThat(m.lines().collect(Collectors.toList())).hasSize(1));
    }

    @Test
    void givenFaultThatEndsBeforeItBegins_thenError() {
        String text = MINIMAL + "[[fault]]\ncause = \"vent-restricted\"\nfrom = 10\nuntil = 5\n";
        assertThatThrownBy(() -> ScenarioReader.read("x", "x.toml", text))
                .isInstanceOf(InputException.class)
                .hasMessageContaining("until");
    }

    @Test
    void givenNoSensor_thenError() {
        assertThatThrownBy(() -> ScenarioReader.read("x", "x.toml", "title = \"t\"\n"))
                .isInstanceOf(InputException.class)
                .hasMessageContaining("[[sensor]]");
    }
}
