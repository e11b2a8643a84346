package draftwitness.setup;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import draftwitness.input.InputException;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class SetupTest {

    @Test
    void givenFullSetup_whenRead_thenPascalsAndSeconds() throws InputException {
        Setup setup = Setup.parse("back-hall.toml", """
                title = "Back hall furnace"
                [switch]
                set-point = "0.95 inH2O"
                differential = "0.08 inH2O"
                tolerance = "0.05 inH2O"
                ports = 2
                reference = "burner-box"
                [gas]
                kind = "natural"
                manifold = "3.5 inH2O"
                low-fire-manifold = "1.7 inH2O"
                inlet-min = "5.0 inH2O"
                inlet-max = "10.5 inH2O"
                [sequence]
                pre-purge = 15
                igniter-warm-up = 17
                trial-for-ignition = 5
                proving-limit = 60
                attempts = 3
                [inducer]
                stages = 2
                [air]
                external-static-max = "0.5 inH2O"
                [sources]
                "draft.switch" = "ascii-line@serial:/dev/ttyUSB0?baud=9600"
                """);
        assertThat(setup.pressureSwitch().setPointPascals()).isCloseTo(0.95 * 249.08891, within(1e-9));
        assertThat(setup.pressureSwitch().breakPascals()).isCloseTo(0.87 * 249.08891, within(1e-9));
        assertThat(setup.gas().kind()).isEqualTo(Setup.GasKind.NATURAL);
        assertThat(setup.gas().manifoldPascals()).isCloseTo(871.811, within(1e-3));
        assertThat(setup.sequence().attempts()).isEqualTo(3);
        assertThat(setup.inducerStages()).isEqualTo(2);
        assertThat(setup.sources()).containsEntry("draft.switch", "ascii-line@serial:/dev/ttyUSB0?baud=9600");
    }

    @Test
    void givenNothing_whenRead_thenDefaultsAndNoSetPoint() {
        Setup setup = Setup.defaults();
        assertThat(setup.pressureSwitch()).isNull();
        assertThat(setup.sequence().provingLimit()).isEqualTo(60);
        assertThat(setup.sequence().retryMax()).isEqualTo(180);
    }

    @ParameterizedTest
    @CsvSource(delimiter = '|', textBlock = """
        [switch]~set-pint = "1 inH2O"               | 2 | switch.set-pint
        title = 5                                   | 1 | title
        [switch]~~set-point = "0.95"                | 3 | needs a unit
        [switch]~set-point = "a lot"                | 2 | not a number
        [switch]~set-point = "-1 Pa"                | 2 | above 0
        [switch]~set-point = "10 Pa"~differential = "20 Pa" | 3 | smaller than the set point
        [gas]~kind = "wood"                         | 2 | natural
        [sequence]~attempts = 0                     | 2 | from 1 to 20
        [boiler]~x = 1                              | 1 | boiler
        title = "x                                  | 1 | setup.toml:1
        """)
    void givenMistake_whenRead_thenFileLineAndKeyAreNamed(String text, int line, String named) {
        assertThatThrownBy(() -> Setup.parse("setup.toml", text.replace('~', '\n')))
                .isInstanceOf(InputException.class)
                .hasMessageStartingWith("setup.toml:" + line + ":")
                .hasMessageContaining(named)
                .satisfies(e -> assertThat(e.getMessage()).doesNotContain("\n"));
    }
}
