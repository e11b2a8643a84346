package draftwitness.input;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

class DurationsTest {

    @ParameterizedTest
    @CsvSource({
        "8h,28800",
        "10m,600",
        "45s,45",
        "2.5s,2.5",
        "1h30m,5400",
        "90,90",
        "1d2h,93600",
        "0.25,0.25",
        "7:40,460",
        "1:07:40,4060",
        "0:01.5,1.5",
        "90:00,5400"
    })
    void givenLengthOfTime_whenRead_thenSeconds(String text, double seconds) throws InputException {
        assertThat(Durations.parseNanos(text)).isEqualTo(Math.round(seconds * 1e9));
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "",
                "0",
                "-5s",
                "h",
                "5x",
                "1.5h",
                "10 m",
                "5s3m",
                "99999999999999",
                "7:4",
                "7:60",
                "1:60:00",
                "1:7:40",
                ":40",
                "7:"
            })
    void givenAnythingElse_whenRead_thenRefused(String text) {
        assertThatThrownBy(() -> Durations.parseNanos(text)).isInstanceOf(InputException.class);
    }

    @ParameterizedTest
    @CsvSource({"8m,480", "7:40,460", "1:07:40,4060", "460,460", "460s,460", "0,0", "0:00,0", "-5,-5", "-1m,-60"})
    void givenMoment_whenRead_thenSecondsFromTheStart(String text, long seconds) throws InputException {
        assertThat(Durations.parseMomentNanos(text)).isEqualTo(seconds * 1_000_000_000);
    }

    @ParameterizedTest
    @ValueSource(strings = {"", "-", "--5", "noon", "7.40:00"})
    void givenNoMoment_whenRead_thenRefusedWithExamples(String text) {
        assertThatThrownBy(() -> Durations.parseMomentNanos(text))
                .isInstanceOf(InputException.class)
                .hasMessageContaining("such as 8m, 7:40");
    }
}
