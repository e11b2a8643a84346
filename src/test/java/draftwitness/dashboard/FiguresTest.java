package draftwitness.dashboard;

import static org.assertj.core.api.Assertions.assertThat;

import draftwitness.reading.Step;
import draftwitness.reading.Unit;
import java.time.Instant;
import java.time.ZoneOffset;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class FiguresTest {

    @ParameterizedTest
    @CsvSource(textBlock = """
                    # sent in,            decimals, shown in,             decimals shown
                    PASCAL,               1,        PASCAL,               1
                    PASCAL,               0,        PASCAL,               0
                    PASCAL,               3,        PASCAL,               2
                    PASCAL,               1,        INCH_OF_WATER,        3
                    PASCAL,               0,        INCH_OF_WATER,        3
                    INCH_OF_WATER,        2,        PASCAL,               0
                    INCH_OF_WATER,        3,        PASCAL,               1
                    INCH_OF_WATER,        2,        INCH_OF_WATER,        2
                    """)
    void givenAStep_whenShownInAUnit_thenNoDigitIsInvented(Unit sent, int decimals, Unit shown, int expected) {
        assertThat(Figures.decimals(new Step(sent, decimals), shown)).isEqualTo(expected);
    }

    // 1 in of water = 249.08891 Pa: NIST SP 811 (2008), Appendix B (2.490 889 E+02).
    @Test
    void givenPascals_whenShownInInchesOfWater_thenTheConventionalInchIsUsed() {
        assertThat(Figures.quantity(-249.08891, Unit.INCH_OF_WATER, 3)).isEqualTo("\u22121.000 inH2O");
        assertThat(Figures.quantity(-231.4, Unit.PASCAL, 1)).isEqualTo("\u2212231.4 Pa");
        assertThat(Figures.quantity(3.2, Unit.MICROAMPERE, 2)).isEqualTo("3.20 \u00b5A");
    }

    @Test
    void givenTimes_whenWritten_thenTheyReadAsPeopleWriteThem() {
        long second = 1_000_000_000L;
        assertThat(Figures.elapsed(751 * second)).isEqualTo("00:12:31");
        assertThat(Figures.duration(12 * second)).isEqualTo("12 s");
        assertThat(Figures.duration(185 * second)).isEqualTo("3 min 05 s");
        assertThat(Figures.duration(7620 * second)).isEqualTo("2 h 07 min");
        Instant start = Instant.parse("2026-01-17T14:00:00Z");
        assertThat(Figures.timeOfDay(start, 151 * second, ZoneOffset.UTC)).isEqualTo("14:02:31");
        assertThat(Figures.timeOfDay(null, 151 * second, ZoneOffset.UTC)).isEqualTo("00:02:31");
    }

    @Test
    void givenSizesAndSpeeds_whenWritten_thenTheyAreShort() {
        assertThat(Figures.size(1)).isEqualTo("1 kB");
        assertThat(Figures.size(1_234_567)).isEqualTo("1.2 MB");
        assertThat(Figures.speed(0.25)).isEqualTo("0.25\u00d7");
        assertThat(Figures.speed(60)).isEqualTo("60\u00d7");
    }
}
