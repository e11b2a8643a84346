package draftwitness.furnace;

import static org.assertj.core.api.Assertions.assertThat;

import draftwitness.input.InputException;
import java.util.List;
import java.util.stream.LongStream;
import org.junit.jupiter.api.Test;

final class VarietyTest {
    @Test
    void givenManySeeds_thenHousesDifferWithinWhatIsNormal() throws InputException {
        House plate = Scenarios.find("healthy-calm").house();
        List<House> houses = LongStream.range(0, 300)
                .mapToObj(seed -> Variety.of(plate, seed))
                .toList();
        assertThat(houses.stream().map(h -> h.flue().strength()).distinct()).hasSizeGreaterThan(280);
        assertThat(houses).allSatisfy(h -> {
            assertThat(h.flue().strength()).isBetween(0.92, 1.08);
            assertThat(Math.abs(h.rating().makePascals() - plate.rating().makePascals()))
                    .isLessThanOrEqualTo(plate.rating().tolerancePascals() + 1e-9);
        });
        assertThat(houses.stream().mapToDouble(h -> h.flue().strength()).max().getAsDouble())
                .isGreaterThan(1.04);
    }

    @Test
    void givenHealthyHouse_whenSeedsVary_thenItHeatsEveryTime() throws InputException {
        Scenario healthy = Scenarios.find("healthy-calm");
        for (long seed = 1; seed <= 20; seed++) {
            Simulation run = Simulation.start(healthy, seed);
            run.advanceTo(450_000_000_000L, (s, n, c) -> {});
            assertThat(run.truthCycles().get(0).outcome()).as("seed " + seed).isEqualTo("heated");
            assertThat(run.truthCycles().get(0).attempts()).as("seed " + seed).isEqualTo(1);
        }
    }
}
