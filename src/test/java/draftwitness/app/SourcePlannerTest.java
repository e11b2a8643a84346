package draftwitness.app;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import draftwitness.capture.SourcePlan;
import draftwitness.driver.DriverCatalog;
import draftwitness.input.InputException;
import draftwitness.reading.Channel;
import draftwitness.reading.Tap;
import draftwitness.reading.Unit;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class SourcePlannerTest {
    private final SourcePlanner planner = new SourcePlanner(DriverCatalog.shipped());

    @Test
    void givenIdThatIsARole_whenNoTapIsSaid_thenThatTap() throws InputException {
        List<SourcePlan> plans =
                planner.plan(List.of("draft.switch=ascii-line?unit=inH2O@serial:/dev/ttyUSB0?baud=9600"), List.of());
        assertThat(plans.get(0).channels())
                .containsExactly(new Channel(Tap.DRAFT_SWITCH, "draft.switch", "pressure", Unit.INCH_OF_WATER));
        assertThat(plans.get(0).address().toString()).isEqualTo("serial:/dev/ttyUSB0?baud=9600");
    }

    @ParameterizedTest
    @CsvSource(delimiter = '|', textBlock = """
            draft.switch=ble-text@serial:/dev/ttyUSB0     | ble-text reads a Bluetooth device; its link must be ble:
            draft.switch=ble-pressure@tcp:localhost:4000  | ble-pressure reads a Bluetooth device
            draft.switch=ascii-line@ble:C0:FF:EE:00:00:01 | ascii-line reads a stream of bytes
            """)
    void givenDriverThatCannotReadItsLink_whenPlanned_thenOneLineSaysWhichWould(String source, String words) {
        assertThatThrownBy(() -> planner.plan(List.of(source.strip()), List.of()))
                .isInstanceOf(InputException.class)
                .hasMessageContaining(words.strip())
                .hasMessageNotContaining("\n");
    }

    @Test
    void givenTableAndTaps_whenPlanned_thenEachColumnOnItsTap() throws InputException {
        List<SourcePlan> plans = planner.plan(
                List.of("box=ascii-table?unit-2=1@tcp:127.0.0.1:4000"),
                List.of("draft.switch=box.c1", "contact.switch=box.c2"));
        assertThat(plans.get(0).channels())
                .extracting(Channel::tap)
                .containsExactly(Tap.DRAFT_SWITCH, Tap.CONTACT_SWITCH);
    }

    @Test
    void givenIdsWithDots_whenATapNamesOne_thenTheLongestFits() throws InputException {
        List<SourcePlan> plans = planner.plan(
                List.of("a=ascii-line@file:x", "a.b=ascii-line@file:y"),
                List.of("draft.switch=a.b", "draft.vent=a.pressure"));
        assertThat(plans.get(1).taps()).containsOnlyKeys(Tap.DRAFT_SWITCH);
        assertThat(plans.get(0).taps()).containsOnlyKeys(Tap.DRAFT_VENT);
    }

    @ParameterizedTest
    @CsvSource(delimiter = '|', textBlock = """
        x                                        |                     | ID=DRIVER@LINK
        x=ascii-line                             |                     | ID=DRIVER@LINK
        draft.switch=ascii-lin@file:x            |                     | did you mean ascii-line
        draft.switch=ascii-line?nuit=Pa@file:x   |                     | nuit
        draft.switch=ascii-line@usb:x            |                     | links begin with
        draft.switch=ascii-line@serial:          |                     | where to
        draft.switch=ascii-line@serial:x?bauds=1 |                     | bauds
        x=ascii-line@file:x                      |                     | on no tap
        x=ascii-line@file:x                      | draft.swich=x       | not a role
        x=ascii-line@file:x                      | draft.switch=y      | no source of that name
        x=ascii-line@file:x                      | draft.switch=x.c1   | no reading 'c1'
        x=ascii-table@file:x                     | draft.switch=x      | say which
        x=ascii-line@file:x                      | contact.switch=x    | is a contact
        """)
    void givenMistake_whenPlanned_thenToldWhatIsWrong(String source, String tap, String told) {
        assertThatThrownBy(() -> planner.plan(List.of(source), tap == null ? List.of() : List.of(tap)))
                .isInstanceOf(InputException.class)
                .hasMessageContaining(told)
                .satisfies(e -> assertThat(e.getMessage()).doesNotContain("\n"));
    }

    @Test
    void givenTwoSourcesOnOneTap_orOfOneName_whenPlanned_thenRefused() {
        assertThatThrownBy(() -> planner.plan(
                        List.of("a=ascii-line@file:x", "b=ascii-line@file:y"),
                        List.of("draft.switch=a", "draft.switch=b")))
                .hasMessageContaining("taken already");
        assertThatThrownBy(() -> planner.plan(List.of("a=ascii-line@file:x", "a=ascii-line@file:y"), List.of()))
                .hasMessageContaining("another source");
    }
}
