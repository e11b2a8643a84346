package draftwitness.dashboard;

import static org.assertj.core.api.Assertions.assertThat;

import draftwitness.reading.Tap;
import draftwitness.reading.Unit;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import org.junit.jupiter.api.Test;

class DashboardModelTest {
    private static final long SECOND = 1_000_000_000L;

    private final List<Settings> kept = new ArrayList<>();
    private final DashboardModel model =
            new DashboardModel(ZoneOffset.UTC, Runnable::run, Runnable::run, Settings.defaults(), kept::add);
    private final FakeTicker ticker = new FakeTicker();

    private Recording recording(int cells) {
        ShownSession shown =
                Objects.requireNonNull(FurnaceFeed.usual().played(cells).shown());
        return new Recording(
                "hall.dwrec",
                shown.header(),
                shown.windows(),
                shown.sources(),
                new Playhead(ticker, shown.windows().extent()));
    }

    @Test
    void givenNothing_whenDrawn_thenThereAreNoLanesAndAHint() {
        assertThat(model.frame(800, 400).lanes()).isEmpty();
        assertThat(model.controls().state()).isEqualTo("Start the demo house or open a recording.");
        assertThat(model.controls().canRecord()).isFalse();
    }

    @Test
    void givenALiveSession_whenItGrows_thenTheStripsFollow() {
        FurnaceFeed feed = FurnaceFeed.usual();
        SessionModel session = feed.played(1200);
        model.showLive("Demo", session, new FakeRecord());
        ChartFrame first = model.frame(800, 400);
        feed.play(session, 1200, 1300);
        ChartFrame second = model.frame(800, 400);
        assertThat(second.headNanos() - first.headNanos()).isEqualTo(10 * SECOND);
        assertThat(second.window().toNanos() - first.window().toNanos()).isEqualTo(10 * SECOND);
        assertThat(first.lanes()).extracting(l -> l.header().tap()).first().isEqualTo(Tap.DRAFT_SWITCH);
        assertThat(model.controls().title()).isEqualTo("Back hall furnace");
    }

    @Test
    void givenALiveSessionThatIsHeld_whenItGrows_thenTheStripsStayAndTheFiguresGoOn() {
        FurnaceFeed feed = FurnaceFeed.usual();
        SessionModel session = feed.played(1000);
        model.showLive("Demo", session, new FakeRecord());
        model.frame(800, 400);
        model.toggleFollow();
        TimeSpan held = model.frame(800, 400).window();
        String before = model.frame(800, 400).lanes().get(0).header().figure();
        feed.play(session, 1000, 1200);
        ChartFrame later = model.frame(800, 400);
        assertThat(later.window()).isEqualTo(held);
        assertThat(later.lanes().get(0).header().figure()).isNotEqualTo(before);
        assertThat(model.controls().position()).contains("held");
        model.toggleFollow();
        assertThat(model.frame(800, 400).window()).isNotEqualTo(held);
    }

    @Test
    void givenARecording_whenScrubbed_thenTheFiguresAreThoseOfTheMoment() {
        model.showRecording(recording(1200));
        model.goTo(5 * SECOND);
        assertThat(figure(0)).isBetween(-2.0, 2.0); // before the inducer starts
        model.goTo(38 * SECOND);
        assertThat(figure(0)).isBetween(-235.0, -228.0); // the feed's cold plateau of 232 Pa
        assertThat(model.controls().replay()).isTrue();
        assertThat(model.controls().state()).isEqualTo("hall.dwrec, Sat 17 Jan 2026, 22:10, 2 min 00 s");
    }

    private double figure(int lane) {
        return Double.parseDouble(
                model.frame(800, 400).lanes().get(lane).header().figure().replace('\u2212', '-'));
    }

    @Test
    void givenARecording_whenPlayedAtFourTimes_thenThePlayheadMovesFourSecondsASecond() {
        model.showRecording(recording(1200));
        model.speed(4);
        model.togglePlay();
        ticker.advance(10 * SECOND);
        assertThat(model.frame(800, 400).headNanos()).isEqualTo(40 * SECOND);
        model.togglePlay();
        ticker.advance(10 * SECOND);
        assertThat(model.frame(800, 400).headNanos()).isEqualTo(40 * SECOND);
        model.step(-3);
        assertThat(model.frame(800, 400).headNanos()).isEqualTo(39_700_000_000L);
        assertThat(model.controls().playing()).isFalse();
    }

    @Test
    void givenARecording_whenPlayedToItsEnd_thenItStopsThereAndPlayStartsOver() {
        model.showRecording(recording(100));
        model.togglePlay();
        ticker.advance(60 * SECOND);
        assertThat(model.frame(800, 400).headNanos()).isEqualTo(10 * SECOND);
        assertThat(model.controls().playing()).isFalse();
        model.togglePlay();
        ticker.advance(SECOND);
        assertThat(model.frame(800, 400).headNanos()).isEqualTo(SECOND);
    }

    @Test
    void givenAnotherUnit_whenChosen_thenPressuresChangeAndContactsDoNot() {
        model.showLive("Demo", FurnaceFeed.usual().played(600), new FakeRecord());
        model.choose(UnitChoice.INCH_OF_WATER);
        ChartFrame frame = model.frame(800, 400);
        assertThat(frame.lanes().get(0).unit()).isEqualTo(Unit.INCH_OF_WATER);
        assertThat(frame.lanes().get(0).lines())
                .extracting(LevelLine::label)
                .first()
                .isEqualTo("makes \u22120.600 inH2O");
        assertThat(frame.lanes().get(3).unit()).isEqualTo(Unit.CONTACT);
        assertThat(kept).hasSize(1).first().extracting(Settings::units).isEqualTo(UnitChoice.INCH_OF_WATER);
    }

    @Test
    void givenTheSameSlicesLiveAndFromARecording_whenDrawn_thenTheLanesAreTheSame() {
        SessionModel session = FurnaceFeed.usual().played(1200);
        DashboardModel live =
                new DashboardModel(ZoneOffset.UTC, Runnable::run, Runnable::run, Settings.defaults(), s -> {});
        live.showLive("Demo", session, new FakeRecord());
        live.choose(SpanChoice.ALL);
        model.showRecording(recording(1200));
        model.choose(SpanChoice.ALL);
        model.goTo(120 * SECOND);
        ChartFrame a = live.frame(800, 400);
        ChartFrame b = model.frame(800, 400);
        assertThat(b.window()).isEqualTo(a.window());
        for (int i = 0; i < a.lanes().size(); i++) {
            assertThat(b.lanes().get(i).header()).isEqualTo(a.lanes().get(i).header());
            assertThat(b.lanes().get(i).columns().extremes())
                    .isEqualTo(a.lanes().get(i).columns().extremes());
        }
    }

    @Test
    void givenTrouble_whenDismissed_thenItGoesAndNewTroubleComes() {
        model.fail("The file a.dwrec is not a recording. Choose another.");
        assertThat(model.controls().banner()).startsWith("The file");
        model.dismissBanner();
        assertThat(model.controls().banner()).isNull();
        FakeRecord record = new FakeRecord();
        model.showLive("Demo", FurnaceFeed.usual().played(10), record);
        record.trouble = "The disk is full.";
        assertThat(model.controls().banner()).isEqualTo("The disk is full.");
        model.dismissBanner();
        assertThat(model.controls().banner()).isNull();
        record.trouble = "The folder is gone.";
        assertThat(model.controls().banner()).isEqualTo("The folder is gone.");
    }
}
