package draftwitness.dashboard;

import static org.assertj.core.api.Assertions.assertThat;

import draftwitness.reading.Quantity;
import draftwitness.reading.Tap;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Test;

class StartModelTest {
    private static final FoundSource ONE = source("ttyUSB0", Quantity.PRESSURE, "");
    private static final FoundSource TWO = source("ttyUSB1", Quantity.PRESSURE, "");
    private static final FoundSource WIRE = source("ttyUSB2", Quantity.CONTACT, "");
    private static final FoundSource BUSY = source("ttyUSB3", null, "In use by another program. Close it there.");

    private final List<FoundSource> found = new ArrayList<>();
    private final List<WatchRequest> watched = new ArrayList<>();
    private final StartModel start = new StartModel(
            new SessionChooser() {
                @Override
                public void startDemo() {}

                @Override
                public void openRecording(Path file) {}

                @Override
                public void watch(WatchRequest request) {
                    watched.add(request);
                }

                @Override
                public List<FoundSource> sources() {
                    return found;
                }

                @Override
                public List<RecentRecording> recent() {
                    return List.of();
                }

                @Override
                public void compare(Optional<Path> other) {}

                @Override
                public void testAlarm() {}

                @Override
                public void exportTable(Path target) {}

                @Override
                public void savePicture(String title, ChartFrame frame, Theme theme, Path target) {}

                @Override
                public void closed() {}
            },
            new SetupEditor(new FakeSetups()));

    private static FoundSource source(String port, @Nullable Quantity quantity, String trouble) {
        return new FoundSource("ascii-line@serial:/dev/" + port, "", port, quantity, "", trouble);
    }

    private void reach(FoundSource... sources) {
        found.clear();
        found.addAll(List.of(sources));
        start.refresh();
    }

    @Test
    void givenOneSensorAlone_whenFound_thenItIsPutAtTheSwitch() {
        reach();
        assertThat(start.canWatch()).isFalse();
        assertThat(start.hint()).startsWith("No sensor found yet");
        reach(ONE);
        assertThat(start.connected()).containsOnlyKeys(Tap.DRAFT_SWITCH);
        assertThat(start.canWatch()).isTrue();
    }

    @Test
    void givenTwoSensors_whenPutOnTaps_thenBothAreWatched() {
        reach(ONE, TWO);
        assertThat(start.connected()).isEmpty();
        start.select(ONE);
        start.press(Tap.DRAFT_SWITCH);
        start.select(TWO);
        start.press(Tap.DRAFT_INDUCER);
        start.setup().type(SetupField.SET_POINT, "0.60 inH2O");
        assertThat(start.hint()).isEqualTo("Ready to watch.");
        start.watch();
        assertThat(watched).singleElement().satisfies(request -> {
            assertThat(request.choices())
                    .containsExactlyInAnyOrder(
                            new WatchRequest.Choice(ONE, Tap.DRAFT_SWITCH),
                            new WatchRequest.Choice(TWO, Tap.DRAFT_INDUCER));
            assertThat(request.setupToml()).contains("set-point = \"0.60 inH2O\"");
        });
    }

    @Test
    void givenASensorOnATap_whenPutElsewhereOrTakenOff_thenItIsNowhereTwice() {
        reach(ONE, TWO);
        start.select(ONE);
        start.press(Tap.DRAFT_SWITCH);
        start.select(ONE);
        start.press(Tap.DRAFT_VENT);
        assertThat(start.connected()).containsOnlyKeys(Tap.DRAFT_VENT);
        start.press(Tap.DRAFT_VENT);
        assertThat(start.connected()).isEmpty();
    }

    @Test
    void givenAContactInput_whenInTheHand_thenItGoesToContactsOnly() {
        reach(ONE, WIRE, BUSY);
        start.select(WIRE);
        assertThat(start.canPress(Tap.CONTACT_SWITCH)).isTrue();
        assertThat(start.canPress(Tap.DRAFT_SWITCH)).isFalse();
        start.press(Tap.DRAFT_SWITCH);
        assertThat(start.connected()).isEmpty();
    }

    @Test
    void givenASensorInTrouble_whenInTheHand_thenItSaysWhatToDoAndGoesNowhere() {
        reach(ONE, BUSY);
        start.select(BUSY);
        assertThat(start.hint()).isEqualTo("In use by another program. Close it there.");
        assertThat(start.canPress(Tap.DRAFT_SWITCH)).isFalse();
    }

    @Test
    void givenAPlateTypedWrong_whenReady_thenWatchingWaitsAndTheHintSaysWhy() {
        reach(ONE);
        start.setup().type(SetupField.SET_POINT, "0.60");
        assertThat(start.canWatch()).isFalse();
        assertThat(start.hint()).contains("set-point");
        start.watch();
        assertThat(watched).isEmpty();
    }
}
