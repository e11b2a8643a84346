package draftwitness.driver;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class DriverGuessTest {
    private final DriverCatalog catalog = DriverCatalog.shipped();

    private List<DriverGuess> rank(byte[] bytes) {
        return DriverGuess.rank(catalog, bytes);
    }

    @ParameterizedTest
    @CsvSource(delimiter = '|', textBlock = """
            # text (/ is a line end)                          | best driver                    | proof
            12.4 Pa/-312.4 Pa/-312.5 Pa/                      | ascii-line                     | pressure -312.4 Pa
            7/-1,5/-2,5/-2,25/                                | ascii-line?decimal-comma=true  | pressure -1.5 Pa
            .4;3/-312.4;1;7/-312.5;0;8/                       | ascii-table?separator=semicolon| c1 -312.4 Pa
            5 2/-1.5 2.5 3/-1.6 2.6 4/                        | ascii-table?separator=blanks   | c1 -1.5 Pa
            witch -3 Pa/draft.switch -312.4 Pa/gas.inlet 900 Pa/ | simulated-house             | draft.switch -312.4 Pa
            *00/$IIXDR,P,249.1,P,DP1*4B/$IIXDR,P,249.1,P,DP1*4B/ | nmea-xdr                    | pressure 249.1 Pa
            """)
    void givenTextOfAnInstrument_whenGuessed_thenTheDriverThatFitsIsFirst(String text, String driver, String proof) {
        byte[] bytes = text.replace("/", "\r\n").getBytes(StandardCharsets.US_ASCII);

        DriverGuess best = rank(bytes).get(0);

        assertThat(best.driver()).isEqualTo(driver.strip());
        assertThat(best.proof()).contains(proof.strip());
        assertThat(rank(bytes))
                .extracting(g -> g.driver().replaceAll("\\?.*", ""))
                .doesNotHaveDuplicates();
    }

    @Test
    void givenBinaryMessages_whenGuessed_thenTheDriverThatFitsIsFirst() {
        DriverGuess best =
                rank(Hex.bytes("F3 BF AA 55 CC F3 BF AA 55 9C FF 9B AA 55 9C")).get(0);

        assertThat(best.driver()).isEqualTo("binary-frame");
        assertThat(best.proof()).containsExactly("pressure -312.4 Pa", "pressure -10.0 Pa");
    }

    @Test
    void givenNoise_whenGuessed_thenNoDriverIsOffered() {
        Random random = new Random(3);
        for (int i = 0; i < 20; i++) {
            byte[] bytes = new byte[400];
            random.nextBytes(bytes);
            assertThat(rank(bytes)).isEmpty();
        }
        assertThat(rank(new byte[0])).isEmpty();
    }
}
