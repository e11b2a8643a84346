package draftwitness.reading;

import static org.assertj.core.api.Assertions.assertThat;

import java.math.BigDecimal;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

class DecimalTest {

    @ParameterizedTest
    @CsvSource(textBlock = """
        1.50,                 150,                 2
        -0.05,                -5,                  2
        +12,                  12,                  0
        .5,                   5,                   1
        7.,                   7,                   0
        -312.4,               -3124,               1
        1.25E-2,              125,                 4
        3e2,                  300,                 0
        0.0000000004,         0,                   9
        0.0000000015,         2,                   9
        123456789012345678,   123456789012345678,  0
        """)
    void givenNumberText_whenParsed_thenCountAndDecimals(String text, long count, int decimals) {
        assertThat(Decimal.parse(text)).contains(new Decimal(count, decimals));
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "",
                "-",
                ".",
                "1.2.3",
                "1,5",
                " 1",
                "1 ",
                "--1",
                "0x10",
                "NaN",
                "Infinity",
                "1e",
                "1e999999999",
                "1e-999999999",
                "99999999999999999999",
                "\u0663",
                "\u22121",
                "1_000",
                "1d",
                "5f"
            })
    void givenAnythingElse_whenParsed_thenNothing(String text) {
        assertThat(Decimal.parse(text)).isEmpty();
    }

    @Test
    void givenAnyCount_whenWrittenAndRead_thenTheSame() {
        Random random = new Random(11);
        for (int i = 0; i < 20_000; i++) {
            Decimal d = new Decimal(random.nextLong() >> random.nextInt(63), random.nextInt(10));
            assertThat(new BigDecimal(d.toString())).isEqualTo(BigDecimal.valueOf(d.count(), d.decimals()));
            assertThat(Decimal.parse(d.toString())).as(d.toString()).contains(d);
        }
    }
}
