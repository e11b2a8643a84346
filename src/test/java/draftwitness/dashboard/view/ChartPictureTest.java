package draftwitness.dashboard.view;

import static org.assertj.core.api.Assertions.assertThat;

import draftwitness.dashboard.ChartFrame;
import draftwitness.dashboard.DashboardModel;
import draftwitness.dashboard.FakeRecord;
import draftwitness.dashboard.FurnaceFeed;
import draftwitness.dashboard.Palette;
import draftwitness.dashboard.SessionModel;
import draftwitness.dashboard.Settings;
import draftwitness.dashboard.SpanChoice;
import draftwitness.dashboard.Theme;
import draftwitness.reading.Slice;
import draftwitness.reading.Tap;
import java.awt.Rectangle;
import java.awt.image.BufferedImage;
import java.io.IOException;
import java.nio.file.Path;
import java.time.ZoneOffset;
import java.util.List;
import javax.imageio.ImageIO;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;

/** Pictures need no display: these tests run with and without one. */
class ChartPictureTest {
    private static final int WIDTH = 1200;
    private static final int HEIGHT = 700;

    private static ChartFrame frame(SessionModel session, ChartPicture picture, SpanChoice span) {
        DashboardModel model =
                new DashboardModel(ZoneOffset.UTC, Runnable::run, Runnable::run, Settings.defaults(), s -> {});
        model.showLive("Demo", session, new FakeRecord());
        model.choose(span);
        return model.frame(picture.stripColumns(WIDTH), 400);
    }

    private static Rectangle plot(ChartFrame frame, int lane) {
        Look look = new Look(Theme.LIGHT.palette(), "SansSerif", 1);
        Rectangle area = new Rectangle(10, 44, WIDTH - 20, HEIGHT - 50);
        return LanesLayout.withAxis(frame.lanes(), area, look)
                .places()
                .get(lane)
                .plot();
    }

    @ParameterizedTest
    @EnumSource(Theme.class)
    void givenASession_whenWritten_thenThePngHoldsTracesSetPointAndRibbon(Theme theme, @TempDir Path folder)
            throws IOException {
        ChartPicture picture = new ChartPicture(theme, 1);
        ChartFrame frame = frame(FurnaceFeed.usual().played(1200), picture, SpanChoice.MINUTES_2);
        Path file = folder.resolve("chart.png");
        picture.write("Back hall furnace", frame, WIDTH, HEIGHT, file);
        BufferedImage image = ImageIO.read(file.toFile());
        Palette p = theme.palette();
        assertThat(image.getWidth()).isEqualTo(WIDTH);
        assertThat(Pixels.count(image, plot(frame, 0), p.trace())).isGreaterThan(300);
        assertThat(Pixels.count(image, plot(frame, 0), p.setPoint())).isGreaterThan(300);
        assertThat(Pixels.count(image, plot(frame, 3), p.contactClosed())).isGreaterThan(1000);
    }

    @Test
    void givenTheDeepestReading_whenDrawn_thenThereIsAPixelThereAndNoneDeeper() {
        FurnaceFeed feed = new FurnaceFeed(10, Tap.DRAFT_INDUCER);
        SessionModel session = feed.played(1200);
        ChartPicture picture = new ChartPicture(Theme.LIGHT, 1);
        ChartFrame frame = frame(session, picture, SpanChoice.MINUTES_2);
        BufferedImage image = picture.render("", frame, WIDTH, HEIGHT);
        Rectangle plot = plot(frame, 0);

        double[] extremes = frame.lanes().get(0).columns().extremes();
        assertThat(extremes).isNotNull();
        int y = (int) Math.round(
                new Traces.Scale(plot, frame.window(), frame.lanes().get(0).range()).y(extremes[0]));
        int trace = Theme.LIGHT.palette().trace();
        assertThat(Pixels.count(image, new Rectangle(plot.x, y - 2, plot.width, 4), trace))
                .isPositive();
        assertThat(Pixels.count(image, new Rectangle(plot.x, y + 3, plot.width, HEIGHT), trace))
                .isZero();
    }

    @Test
    void givenMissingReadings_whenDrawn_thenThatTimeHasNoTrace() {
        FurnaceFeed feed = new FurnaceFeed(50, Tap.DRAFT_SWITCH);
        SessionModel session = feed.played(300);
        for (int cell = 300; cell < 600; cell++) {
            session.slice(new Slice(cell, List.of(), List.of()));
        }
        feed.play(session, 600, 1200);
        ChartPicture picture = new ChartPicture(Theme.LIGHT, 1);
        ChartFrame frame = frame(session, picture, SpanChoice.MINUTES_2);
        BufferedImage image = picture.render("", frame, WIDTH, HEIGHT);
        Rectangle plot = plot(frame, 0);
        Traces.Scale scale =
                new Traces.Scale(plot, frame.window(), frame.lanes().get(0).range());
        int from = (int) scale.x(31_000_000_000L);
        int to = (int) scale.x(59_000_000_000L);
        int trace = Theme.LIGHT.palette().trace();
        assertThat(Pixels.count(image, new Rectangle(from, plot.y, to - from, plot.height), trace))
                .isZero();
        assertThat(Pixels.count(
                        image,
                        new Rectangle(from, plot.y, to - from, plot.height),
                        Theme.LIGHT.palette().gap()))
                .isGreaterThan(100);
        assertThat(Pixels.count(image, new Rectangle(to + 20, plot.y, 50, plot.height), trace))
                .isPositive();
    }

    @Test
    void givenMoreLanesThanFit_whenDrawn_thenThePictureGrowsInsteadOfHidingThem() {
        FurnaceFeed feed = new FurnaceFeed(
                10,
                Tap.DRAFT_SWITCH,
                Tap.DRAFT_INDUCER,
                Tap.DRAFT_COLLECTOR,
                Tap.GAS_INLET,
                Tap.GAS_MANIFOLD,
                Tap.STATIC_RETURN,
                Tap.STATIC_SUPPLY,
                Tap.CONTACT_SWITCH);
        ChartPicture picture = new ChartPicture(Theme.LIGHT, 1);
        BufferedImage image = picture.render("", frame(feed.played(100), picture, SpanChoice.MINUTE_1), WIDTH, 400);
        assertThat(image.getHeight()).isGreaterThan(500);
    }
}
