package draftwitness.reading;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.EnumSource;

class UnitTest {

    @ParameterizedTest
    // spotless:off
    @CsvSource(useHeadersInDisplayName = true, delimiter = '|', textBlock = """
        unit       | pascals            | relative | source
        inH2O      | 249.08891          | 1e-9     | NIST SP 811 (2008) App. B, prints 2.490 889 E+02; 0.0254 m x 1000 kg/m3 x 9.80665 m/s2
        inH2O      | 249.0889           | 1e-7     | GNU Scientific Library, MKSA constants
        inH2O_4C   | 249.082            | 1e-9     | NIST SP 811 App. B, 39.2 degF
        inH2O_60F  | 248.84             | 1e-9     | NIST SP 811 App. B, 60 degF
        inHg       | 3386.389           | 2e-7     | NIST SP 811 App. B, conventional
        inHg       | 3386.38815789      | 1e-6     | GNU Scientific Library, MKSA constants (0.25 ppm lower)
        mmH2O      | 9.80665            | 1e-12    | UCUM mm[H2O]
        mbar       | 100                | 1e-15    | SI brochure, UCUM
        hPa        | 100                | 1e-15    | SI brochure
        kPa        | 1000               | 1e-15    | SI brochure
        psi        | 6894.757293168361  | 1e-9     | UCUM [psi]
        psi        | 6894.75729317      | 1e-9     | GNU Scientific Library, MKSA constants
        Pa         | 1                  | 1e-15    | SI brochure
        """)
    // spotless:on
    void givenOneOfAUnit_whenConverted_thenPublishedPascals(
            String symbol, double pascals, double relative, String source) {
        Unit unit = Unit.ofSymbol(symbol).orElseThrow();
        assertThat(unit.toBase(1)).as(source).isCloseTo(pascals, within(pascals * relative));
    }

    @ParameterizedTest
    // spotless:off
    // Cross-conversions of one conventional inch of water, computed from the definitions above (six digits).
    @CsvSource(useHeadersInDisplayName = true, textBlock = """
        unit,  value
        mbar,  2.490889
        kPa,   0.2490889
        psi,   0.03612729
        mmH2O, 25.4
        inHg,  0.0735559
        """)
    // spotless:on
    void givenOneInchOfWater_whenShownInAnotherUnit_thenKnownValue(String symbol, double value) {
        Unit unit = Unit.ofSymbol(symbol).orElseThrow();
        assertThat(unit.fromBase(Unit.INCH_OF_WATER.toBase(1))).isCloseTo(value, within(value * 1e-6));
    }

    @ParameterizedTest
    @EnumSource(Unit.class)
    void givenAnyUnit_whenThereAndBack_thenSameValue(Unit unit) {
        for (double v = -1000; v <= 1000; v += 7.3) {
            assertThat(unit.fromBase(unit.toBase(v))).isCloseTo(v, within(1e-9));
        }
    }

    @ParameterizedTest
    @CsvSource(delimiter = '|', textBlock = """
        Pa        | Pa
        PA        | Pa
        in. W.C.  | inH2O
        "wc       | inH2O
        inH2O     | inH2O
        in H2O    | inH2O
        IN.WG     | inH2O
        mBar      | mbar
        mmH2O     | mmH2O
        inHg      | inHg
        """)
    void givenWhatAnInstrumentPrints_whenRecognised_thenTheUnitItMeans(String text, String symbol) {
        assertThat(Unit.ofInstrumentText(text).orElseThrow().symbol()).isEqualTo(symbol);
    }

    @Test
    void givenUnknownText_whenRecognised_thenNoGuess() {
        assertThat(Unit.ofInstrumentText("ft")).isEmpty();
        assertThat(Unit.ofInstrumentText("")).isEmpty();
        assertThat(Unit.ofSymbol("pa")).isEmpty();
    }
}
