package draftwitness.dashboard;

import static org.assertj.core.api.Assertions.assertThat;

import draftwitness.reading.Block;
import draftwitness.reading.Channel;
import draftwitness.reading.SessionHeader;
import draftwitness.reading.Slice;
import draftwitness.reading.Step;
import draftwitness.reading.Tap;
import draftwitness.reading.Unit;
import java.time.ZoneOffset;
import java.util.List;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;

/** Cursor and measure over a ramp of -10 Pa a second, ten readings a second, whose values are known by arithmetic. */
class ProbeTest {
    private static final long SECOND = 1_000_000_000L;
    private final DashboardModel model =
            new DashboardModel(ZoneOffset.UTC, Runnable::run, Runnable::run, Settings.defaults(), s -> {});

    @BeforeEach
    void showRamp() {
        Channel channel = new Channel(Tap.DRAFT_SWITCH, "s", "p", Unit.PASCAL);
        SessionModel session = new SessionModel();
        session.begin(new SessionHeader(FurnaceFeed.START, "", 1, List.of(channel), List.of(), ""));
        for (int cell = 0; cell < 200; cell++) {
            Block block = new Block(
                    channel, new Step(Unit.PASCAL, 1), new long[] {cell * Slice.CELL_NANOS}, new long[] {-10L * cell});
            session.slice(new Slice(cell, List.of(block), List.of()));
        }
        model.showLive("Ramp", session, new FakeRecord());
        model.choose(SpanChoice.ALL);
    }

    private LaneProbe probe() {
        return model.frame(500, 100).lanes().get(0).probe();
    }

    @Test
    void givenACursor_whenBetweenTwoReadings_thenTheOneBeforeIsShownExactly() {
        model.point(5 * SECOND + 70_000_000);
        assertThat(probe().reading()).isEqualTo(new Sample(5 * SECOND, -50));
        assertThat(probe().readingText()).isEqualTo("\u221250.0 Pa");
        model.point(null);
        assertThat(probe()).isEqualTo(LaneProbe.NONE);
    }

    @Test
    void givenTwoPoints_whenMeasured_thenChangeSlopeExtremesAndMeanAreThoseOfTheRamp() {
        model.measure(2 * SECOND, 5 * SECOND);
        assertThat(probe().measureText())
                .isEqualTo("change \u221230.0, \u221210.0/s, from \u221250.0 to \u221220.0, mean \u221235.0 Pa");
    }

    @Test
    void givenTwoPointsTheOtherWayRound_whenMeasured_thenItIsTheSame() {
        model.measure(2 * SECOND, 5 * SECOND);
        String forward = probe().measureText();
        model.measure(5 * SECOND, 2 * SECOND);
        assertThat(probe().measureText()).isEqualTo(forward);
    }

    @Test
    void givenTheCursorAlone_whenPointsAreMarked_thenTheFirstWaitsForTheSecond() {
        model.point(2 * SECOND);
        model.mark();
        model.point(4 * SECOND);
        assertThat(model.pointing().measured()).isEqualTo(new TimeSpan(2 * SECOND, 4 * SECOND));
        model.point(5 * SECOND);
        model.mark();
        model.point(9 * SECOND);
        assertThat(model.pointing().measured()).isEqualTo(new TimeSpan(2 * SECOND, 5 * SECOND));
        assertThat(model.clearMeasure()).isTrue();
        assertThat(model.clearMeasure()).isFalse();
    }

    @Test
    void givenPointsWithoutReadingsBetween_whenMeasured_thenThatIsSaid() {
        model.measure(2 * SECOND + 10, 2 * SECOND + 20);
        assertThat(probe().measureText()).isEqualTo("no readings between the two points");
    }

    @Test
    void givenTheKeyboard_whenTheCursorMoves_thenItStaysWithinWhatIsShown() {
        probe();
        model.moveCursor(1);
        assertThat(model.pointing().cursorNanos()).isBetween(10 * SECOND, 11 * SECOND);
        model.moveCursor(5000);
        assertThat(model.pointing().cursorNanos()).isEqualTo(20 * SECOND);
    }
}
