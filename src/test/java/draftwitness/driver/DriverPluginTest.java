package draftwitness.driver;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import draftwitness.input.InputException;
import java.util.List;
import org.junit.jupiter.api.Test;

class DriverPluginTest {

    @Test
    void givenPluginOnTheClassPath_whenAskedFor_thenItDecodes() throws InputException {
        Driver driver = DriverCatalog.with(List.of()).find("example-differences?unit=mbar");

        DecodeLog log = Chunking.decode(driver, Hex.bytes("05 80 F3 CC 01 FE 7F"));

        assertThat(log.readings)
                .containsExactly("0: -312.4 mbar", "0: -312.3 mbar", "0: -312.5 mbar", "0: -299.8 mbar");
        assertThat(log.faults).containsEntry(Fault.PARTIAL, 1);
    }

    @Test
    void givenPluginThatCannotBeLoaded_whenListed_thenTheReasonIsToldAndTheOthersStay() throws InputException {
        List<DriverCatalog.Entry> entries = DriverCatalog.with(List.of()).list();

        assertThat(entries).extracting(DriverCatalog.Entry::name).contains("example-differences", "ascii-line");
        assertThat(entries)
                .filteredOn(e -> !e.problem().isEmpty())
                .singleElement()
                .satisfies(e -> assertThat(e.problem()).contains("NoSuchPlugin"));
    }

    @Test
    void givenUnknownParameterOfAPlugin_whenAskedFor_thenItsOwnAreNamed() {
        assertThatThrownBy(() -> DriverCatalog.with(List.of()).find("example-differences?units=Pa"))
                .isInstanceOf(InputException.class)
                .hasMessageContaining("the driver has no parameter 'units'; it has: unit");
    }

    @Test
    void givenRandomInput_whenDecodedByThePlugin_thenNothingIsThrownOrLost() throws InputException {
        Driver driver = DriverCatalog.with(List.of()).find("example-differences");

        assertThat(RandomCases.feed(driver, 9, 1_000_000, 3, List.of(Hex.bytes("80 00 01 02"))).readings)
                .isNotEmpty();
    }
}
