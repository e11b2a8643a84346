package draftwitness.input;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.time.Instant;
import java.time.ZoneId;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class WallClockTest {
    private static final ZoneId BERLIN = ZoneId.of("Europe/Berlin");

    @ParameterizedTest
    // Berlin is UTC+1 in January and UTC+2 in July (tz database).
    @CsvSource(delimiter = '|', textBlock = """
                    2026-01-17 22:10               | 2026-01-17T21:10:00Z
                    2026-01-17T22:10:05            | 2026-01-17T21:10:05Z
                    2026-07-17 22:10:05.25         | 2026-07-17T20:10:05.250Z
                    2026-01-17T22:10:00Z           | 2026-01-17T22:10:00Z
                    2026-01-17 22:10 +02:00        | 2026-01-17T20:10:00Z
                    2026-01-17T22:10-0500          | 2026-01-18T03:10:00Z
                    2026-01-17 22:10 America/Denver| 2026-01-18T05:10:00Z
                    """)
    void givenDateAndTime_whenReadInBerlin_thenTheInstant(String text, String instant) throws InputException {
        assertThat(WallClock.parse(text, BERLIN).instant()).isEqualTo(Instant.parse(instant));
    }

    @Test
    void givenNoZone_whenRead_thenTheZoneTakenIsTold() throws InputException {
        WallClock taken = WallClock.parse("2026-01-17 22:10", BERLIN);
        assertThat(taken.zoneGiven()).isFalse();
        assertThat(taken.text()).isEqualTo("2026-01-17 22:10:00 Europe/Berlin, which is 2026-01-17T21:10:00Z");
        assertThat(WallClock.parse("2026-01-17 22:10Z", BERLIN).zoneGiven()).isTrue();
    }

    @ParameterizedTest
    // Clocks in Berlin went forward on 29 March 2026 at 2:00 and back on 25 October 2026 at 3:00 (tz database).
    @CsvSource(delimiter = '|', textBlock = """
                    2026-03-29 02:30       | never was in Europe/Berlin
                    2026-10-25 02:30       | +02:00 or +01:00
                    2026-02-30 10:00       | no date and time that there is
                    2026-01-17 25:00       | no date and time that there is
                    2026-01-17 22:10 No/Where | not a zone
                    2026-01-17             | such as 2026-01-17 22:10
                    17.01.2026 22:10       | such as 2026-01-17 22:10
                    yesterday              | such as 2026-01-17 22:10
                    """)
    void givenNoMomentOrTwo_whenRead_thenSaidWhy(String text, String told) {
        assertThatThrownBy(() -> WallClock.parse(text, BERLIN))
                .isInstanceOf(InputException.class)
                .hasMessageContaining(told);
    }
}
