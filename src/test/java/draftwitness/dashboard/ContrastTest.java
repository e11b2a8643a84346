package draftwitness.dashboard;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.EnumSource;

class ContrastTest {

    // Worked from the definitions of relative luminance and contrast ratio in WCAG 2.2; black on white is 21:1 there.
    @ParameterizedTest
    @CsvSource(textBlock = """
                    000000, FFFFFF, 21.0000
                    777777, FFFFFF,  4.4781
                    767676, FFFFFF,  4.5422
                    949494, FFFFFF,  3.0335
                    959595, FFFFFF,  2.9953
                    FF0000, FFFFFF,  3.9985
                    0000FF, FFFFFF,  8.5925
                    00FF00, FFFFFF,  1.3722
                    FFFF00, 000000, 19.5560
                    """)
    void givenTwoColours_whenCompared_thenTheRatioIsTheOneOfTheGuideline(String a, String b, double ratio) {
        assertThat(Contrast.ratio(Integer.parseInt(a, 16), Integer.parseInt(b, 16)))
                .isCloseTo(ratio, within(5e-4));
        assertThat(Contrast.ratio(Integer.parseInt(b, 16), Integer.parseInt(a, 16)))
                .isCloseTo(ratio, within(5e-4));
    }

    /** WCAG 2.2, 1.4.3: 4.5:1 for text. */
    @ParameterizedTest
    @EnumSource(Theme.class)
    void givenATheme_whenTextIsShown_thenItsContrastIsAtLeastFourAndAHalf(Theme theme) {
        Palette p = theme.palette();
        int[] texts = {p.ink(), p.quietInk(), p.setPoint(), p.breakPoint(), p.danger(), p.attention()};
        for (int text : texts) {
            assertThat(Contrast.ratio(text, p.lane())).as("%06x on lane", text).isGreaterThanOrEqualTo(4.5);
            assertThat(Contrast.ratio(text, p.ground()))
                    .as("%06x on ground", text)
                    .isGreaterThanOrEqualTo(4.5);
        }
        assertThat(Contrast.ratio(p.quietInk(), p.gap())).as("gap's word").isGreaterThanOrEqualTo(4.5);
        assertThat(Contrast.ratio(p.lane(), p.contactClosed()))
                .as("word on ribbon")
                .isGreaterThanOrEqualTo(4.5);
        assertThat(Contrast.ratio(p.onAccent(), p.accent()))
                .as("pressed choice")
                .isGreaterThanOrEqualTo(4.5);
    }

    /** WCAG 2.2, 1.4.11: 3:1 for graphics and controls. */
    @ParameterizedTest
    @EnumSource(Theme.class)
    void givenATheme_whenLinesAreDrawn_thenTheirContrastIsAtLeastThree(Theme theme) {
        Palette p = theme.palette();
        int[] lines = {
            p.trace(), p.setPoint(), p.breakPoint(), p.contactClosed(), p.contactOpen(), p.playhead(), p.accent()
        };
        for (int line : lines) {
            assertThat(Contrast.ratio(line, p.lane())).as("%06x on lane", line).isGreaterThanOrEqualTo(3);
            assertThat(Contrast.ratio(line, p.ground()))
                    .as("%06x on ground", line)
                    .isGreaterThanOrEqualTo(3);
        }
    }

    @Test
    void givenTwoThemes_whenCompared_thenOneIsLightAndTheOtherDark() {
        assertThat(Contrast.luminance(Theme.LIGHT.palette().ground())).isGreaterThan(0.8);
        assertThat(Contrast.luminance(Theme.DARK.palette().ground())).isLessThan(0.05);
    }
}
