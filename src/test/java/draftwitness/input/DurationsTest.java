package draftwitness.input;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

class DurationsTest {

    @ParameterizedTest
    @CsvSource({"8h,28800", "10m,600", "45s,45", "2.5s,2.5", "1h30m,5400", "90,90", "1d2h,93600", "0.25,0.25"})
    void givenLengthOfTime_whenRead_thenSeconds(String text, double seconds) throws InputException {
        assertThat(Durations.parseNanos(text)).isEqualTo(Math.round(seconds * 1e9));
    }

    @ParameterizedTest
    @ValueSource(strings = {"", "0", "-5s", "h", "5x", "1.5h", "10 m", "5s3m", "99999999999999"})
    void givenAnythingElse_whenRead_thenRefused(String text) {
        assertThatThrownBy(() -> Durations.parseNanos(text)).isInstanceOf(InputException.class);
    }
}
