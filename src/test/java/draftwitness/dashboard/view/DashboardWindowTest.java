package draftwitness.dashboard.view;

import static org.assertj.core.api.Assertions.assertThat;

import draftwitness.dashboard.Contrast;
import draftwitness.dashboard.Palette;
import draftwitness.dashboard.RecordControl;
import draftwitness.dashboard.SetupField;
import draftwitness.dashboard.SpanChoice;
import draftwitness.dashboard.Theme;
import draftwitness.dashboard.TimeSpan;
import draftwitness.dashboard.UnitChoice;
import draftwitness.reading.Slice;
import draftwitness.reading.SourceEvent;
import draftwitness.reading.SourceState;
import draftwitness.reading.Tap;
import java.awt.Component;
import java.awt.Container;
import java.awt.Rectangle;
import java.awt.event.KeyEvent;
import java.awt.event.MouseEvent;
import java.awt.event.MouseWheelEvent;
import java.awt.image.BufferedImage;
import java.util.ArrayList;
import java.util.List;
import javax.swing.AbstractButton;
import javax.swing.JComboBox;
import javax.swing.JLabel;
import javax.swing.JTextField;
import javax.swing.SwingUtilities;
import org.junit.jupiter.api.Test;

/** Presses the real window on a real (virtual) display. */
class DashboardWindowTest extends OpenWindow {
    private static final long SECOND = 1_000_000_000L;

    private void demo(int cells) {
        bench.feed.play(bench.session, 0, cells);
        bench.press("start.demo");
    }

    private LanesView lanes() {
        return bench.find(LanesView.class, "lanes");
    }

    /** A lane's plot in the coordinates of the window's content. */
    private Rectangle plot(int lane) {
        LanesView view = lanes();
        return Bench.on(() -> SwingUtilities.convertRectangle(
                view,
                view.layoutNow().places().get(lane).plot(),
                bench.window().window().getContentPane()));
    }

    @Test
    void givenTheDemo_whenStarted_thenEveryTapHasALaneThatSpeaksItsValue() {
        demo(380);
        assertThat(bench.asked).contains("demo");
        assertThat(lanes().frame().lanes()).hasSize(5);
        LaneHeaderView header = bench.find(LaneHeaderView.class, "lane.draft.switch");
        assertThat(header.getAccessibleContext().getAccessibleName())
                .matches("Draft at switch: \u221223\\d\\.\\d Pa suction, margin 8\\d\\.\\d Pa: modest");
        assertThat(bench.find(LaneHeaderView.class, "lane.contact.switch")
                        .getAccessibleContext()
                        .getAccessibleName())
                .isEqualTo("Pressure switch contact: closed");
        Palette p = Theme.LIGHT.palette();
        BufferedImage picture = bench.picture();
        for (int lane = 0; lane < 3; lane++) {
            assertThat(Pixels.count(picture, plot(lane), p.trace()))
                    .as("trace of lane %d", lane)
                    .isGreaterThan(100);
        }
        assertThat(Pixels.count(picture, plot(0), p.setPoint())).isGreaterThan(300);
        assertThat(Pixels.count(picture, plot(3), p.contactClosed())).isGreaterThan(1000);
    }

    @Test
    void givenALiveSession_whenRecordAndStopArePressed_thenTheFileIsWrittenAndTheStateTells() {
        demo(100);
        bench.press("record");
        bench.record.elapsedNanos = 751 * SECOND;
        bench.record.bytes = 1_200_000;
        bench.settle();
        assertThat(bench.record.state).isEqualTo(RecordControl.State.RECORDING);
        assertThat(bench.find(JLabel.class, "state").getText())
                .contains("00:12:31")
                .contains("1.2 MB");
        assertThat(bench.find(AbstractButton.class, "record").isEnabled()).isFalse();
        bench.press("stop");
        assertThat(bench.record.state).isEqualTo(RecordControl.State.STOPPING);
        bench.record.finished();
        bench.settle();
        assertThat(bench.find(AbstractButton.class, "record").isEnabled()).isTrue();
        assertThat(bench.find(JLabel.class, "state").getText()).contains("kept");
    }

    @Test
    void givenARecording_whenTheOverviewIsDragged_thenPlayheadAndFiguresFollow() {
        bench.press("open");
        assertThat(bench.asked).contains("open hall.dwrec");
        OverviewView overview = bench.find(OverviewView.class, "overview");
        drag(overview, (int) overview.xOf(5 * SECOND), (int) overview.xOf(60 * SECOND));
        LanesView lanes = lanes();
        assertThat(Math.abs(lanes.frame().headNanos() - 60 * SECOND)).isLessThan(SECOND);
        assertThat(lanes.frame().lanes().get(0).header().figure()).startsWith("\u22122");
        BufferedImage picture = bench.picture();
        int playhead = Theme.LIGHT.palette().playhead();
        assertThat(Pixels.count(picture, plot(0), playhead)).isGreaterThan(50);
    }

    private void drag(Component on, int from, int to) {
        int y = on.getHeight() / 2;
        bench.act(() -> {
            on.dispatchEvent(mouse(on, MouseEvent.MOUSE_PRESSED, from, y));
            for (int i = 1; i <= 10; i++) {
                on.dispatchEvent(mouse(on, MouseEvent.MOUSE_DRAGGED, from + (to - from) * i / 10, y));
            }
            on.dispatchEvent(mouse(on, MouseEvent.MOUSE_RELEASED, to, y));
        });
    }

    private static MouseEvent mouse(Component on, int id, int x, int y) {
        return new MouseEvent(on, id, 1, MouseEvent.BUTTON1_DOWN_MASK, x, y, 1, false, MouseEvent.BUTTON1);
    }

    @Test
    void givenARecording_whenPlayedPausedAndStepped_thenThePlayheadMovesSo() {
        bench.press("open");
        bench.press("play");
        bench.ticker.advance(20 * SECOND);
        bench.settle();
        assertThat(lanes().frame().headNanos()).isEqualTo(20 * SECOND);
        assertThat(bench.find(AbstractButton.class, "play").getText()).isEqualTo("Pause");
        bench.press("play");
        bench.ticker.advance(20 * SECOND);
        bench.press("forward");
        assertThat(lanes().frame().headNanos()).isEqualTo(20_100_000_000L);
        JComboBox<?> speed = bench.find(JComboBox.class, "speed");
        bench.act(() -> speed.setSelectedIndex(speed.getItemCount() - 1));
        bench.press("play");
        bench.ticker.advance(SECOND);
        bench.settle();
        assertThat(lanes().frame().headNanos()).isEqualTo(80_100_000_000L);
    }

    @Test
    void givenAnotherUnit_whenChosen_thenFiguresAreInIt() {
        demo(380);
        JComboBox<?> units = bench.find(JComboBox.class, "units");
        bench.act(() -> units.setSelectedItem(UnitChoice.INCH_OF_WATER));
        assertThat(lanes().frame().lanes().get(0).header().unit()).isEqualTo("inH2O");
        assertThat(lanes().frame().lanes().get(0).header().figure()).startsWith("\u22120.9");
    }

    @Test
    void givenTheLightTheme_whenDarkIsChosen_thenTheWindowIsDarkAndStillWorks() {
        demo(380);
        BufferedImage light = bench.picture();
        bench.press("theme");
        BufferedImage dark = bench.picture();
        assertThat(Contrast.luminance(light.getRGB(2, 2) & 0xFFFFFF)).isGreaterThan(0.8);
        assertThat(Contrast.luminance(dark.getRGB(2, 2) & 0xFFFFFF)).isLessThan(0.05);
        assertThat(Pixels.count(dark, plot(0), Theme.DARK.palette().trace())).isGreaterThan(100);
        assertThat(Pixels.count(dark, Pixels.all(dark), Theme.LIGHT.palette().lane()))
                .isZero();
        bench.press("record");
        assertThat(bench.record.starts).isEqualTo(1);
    }

    @Test
    void givenALostSource_whenDrawn_thenTheLaneSaysSoAndKeepsItsReadings() {
        demo(380);
        bench.session.slice(new Slice(
                380,
                List.of(),
                List.of(new SourceEvent("draft.switch", 38 * SECOND, SourceState.RETRYING, "unplugged"))));
        for (int cell = 381; cell < 420; cell++) {
            bench.session.slice(new Slice(cell, List.of(), List.of()));
        }
        BufferedImage picture = bench.picture();
        LaneHeaderView header = bench.find(LaneHeaderView.class, "lane.draft.switch");
        assertThat(header.getAccessibleContext().getAccessibleName()).contains("gone since 22:10:38, retrying");
        Rectangle where = Bench.on(() -> SwingUtilities.convertRectangle(
                header.getParent(), header.getBounds(), bench.window().window().getContentPane()));
        assertThat(Pixels.count(picture, where, Theme.LIGHT.palette().danger())).isGreaterThan(30);
        assertThat(Pixels.count(picture, plot(0), Theme.LIGHT.palette().trace()))
                .isGreaterThan(100);
    }

    @Test
    void givenTheStrips_whenTheWheelTurnsAndTheyAreDragged_thenTheyZoomAndMoveAndHold() {
        demo(1300);
        LanesView view = lanes();
        TimeSpan before = view.frame().window();
        bench.act(() -> view.dispatchEvent(new MouseWheelEvent(
                view, MouseEvent.MOUSE_WHEEL, 1, 0, 800, 100, 0, false, MouseWheelEvent.WHEEL_UNIT_SCROLL, 1, -3)));
        TimeSpan zoomed = view.frame().window();
        assertThat(zoomed.lengthNanos()).isLessThan(before.lengthNanos());
        assertThat(bench.find(AbstractButton.class, "follow").isSelected()).isFalse();
        drag(view, 700, 900);
        TimeSpan moved = view.frame().window();
        assertThat(moved.fromNanos()).isLessThan(zoomed.fromNanos());
        assertThat(Math.abs(moved.lengthNanos() - zoomed.lengthNanos())).isLessThan(2);
        bench.press("follow");
        assertThat(view.frame().window().contains(view.frame().headNanos())).isTrue();
    }

    @Test
    void givenThePointer_whenItMovesOverTheStrips_thenEveryStripTellsItsReading() {
        demo(1300);
        LanesView view = lanes();
        Rectangle plot = Bench.on(() -> view.layoutNow().places().get(0).plot());
        bench.act(() -> view.dispatchEvent(
                new MouseEvent(view, MouseEvent.MOUSE_MOVED, 1, 0, plot.x + 400, plot.y + 20, 0, false)));
        assertThat(view.frame().lanes()).allMatch(l -> !l.probe().readingText().isEmpty());
        assertThat(view.frame().lanes().get(0).probe().readingText()).endsWith(" Pa");
        assertThat(Pixels.count(bench.picture(), plot(1), Theme.LIGHT.palette().playhead()))
                .isGreaterThan(20);
        bench.act(() -> view.dispatchEvent(new MouseEvent(view, MouseEvent.MOUSE_EXITED, 1, 0, 0, 0, 0, false)));
        assertThat(view.frame().pointing().cursorNanos()).isNull();
    }

    @Test
    void givenMeasuringIsOn_whenDragged_thenTheStripsStayAndTheSpanIsMeasured() {
        demo(1300);
        LanesView view = lanes();
        bench.press("measure");
        TimeSpan before = view.frame().window();
        drag(view, 700, 900);
        assertThat(view.frame().window()).isEqualTo(before);
        assertThat(view.frame().pointing().measured()).isNotNull();
        assertThat(view.frame().lanes().get(0).probe().measureText())
                .contains("change")
                .contains("mean");
        bench.press("measure");
        assertThat(view.frame().pointing().measured()).isNull();
    }

    @Test
    void givenARecording_whenAStripIsPressed_thenThePlayheadGoesThereAndTheStripsStay() {
        bench.press("open");
        LanesView view = lanes();
        TimeSpan before = view.frame().window();
        Rectangle plot = Bench.on(() -> view.layoutNow().places().get(0).plot());
        bench.act(() -> {
            view.dispatchEvent(mouse(view, MouseEvent.MOUSE_PRESSED, plot.x + plot.width / 2, plot.y + 20));
            view.dispatchEvent(mouse(view, MouseEvent.MOUSE_RELEASED, plot.x + plot.width / 2, plot.y + 20));
        });
        assertThat(view.frame().window()).isEqualTo(before);
        long middle = before.fromNanos() + before.lengthNanos() / 2;
        assertThat(Math.abs(view.frame().headNanos() - middle)).isLessThan(SECOND);
    }

    @Test
    void givenTheStartScreen_whenASensorIsPutOnTheDrawingAndThePlateTyped_thenItIsWatched() {
        bench.sources.addAll(Sensors.three());
        bench.settle();
        assertThat(bench.find(AbstractButton.class, "start.watch").isEnabled()).isFalse();
        bench.press("source.ascii-line@serial:/dev/ttyUSB1?baud=9600.pressure");
        bench.press("tap.draft.inducer");
        bench.type("setup.set-point", "0.6");
        assertThat(bench.find(AbstractButton.class, "start.watch").isEnabled()).isFalse();
        bench.type("setup.set-point", "0.6 inH2O");
        assertThat(bench.find(AbstractButton.class, "tap.draft.inducer")
                        .getAccessibleContext()
                        .getAccessibleName())
                .isEqualTo("Draft at inducer: Serial port ttyUSB1");
        bench.press("start.watch");
        assertThat(bench.watched.choices()).singleElement().satisfies(choice -> {
            assertThat(choice.tap()).isEqualTo(Tap.DRAFT_INDUCER);
            assertThat(choice.source().title()).isEqualTo("Serial port ttyUSB1");
        });
        assertThat(bench.watched.setupToml()).contains("set-point = \"0.6 inH2O\"");
        assertThat(lanes().isShowing()).isTrue();
    }

    @Test
    void givenARecentRecording_whenPressed_thenItIsOpened() {
        bench.recent = Sensors.recent();
        bench.settle();
        bench.press("recent.garage-2026-01-12-1410.dwrec");
        assertThat(bench.asked).contains("open garage-2026-01-12-1410.dwrec");
        assertThat(bench.model.controls().replay()).isTrue();
    }

    @Test
    void givenTheSetups_whenOneIsTypedUndoneAndSaved_thenItIsKept() {
        bench.press("start.more");
        bench.type("editor.as", "back-hall");
        bench.act(() -> bench.window().start().setup().type(SetupField.TITLE, "Wrong"));
        bench.press("editor.undo");
        bench.act(() -> bench.window().start().setup().type(SetupField.TITLE, "Back hall"));
        bench.press("editor.save");
        assertThat(bench.setups).containsOnlyKeys("back-hall");
        assertThat(bench.setups.get("back-hall")).isEqualTo("title = \"Back hall\"\n");
        bench.press("editor.back");
        assertThat(bench.find(JTextField.class, "setup.title").getText()).isEqualTo("Back hall");
    }

    @Test
    void givenALiveSession_whenTheStartScreenIsVisited_thenRecordingRunsOnAndTheWayBackIsThere() {
        demo(380);
        bench.press("record");
        bench.press("home");
        assertThat(bench.find(Component.class, "start").isShowing()).isTrue();
        assertThat(bench.find(AbstractButton.class, "stop").isShowing()).isTrue();
        assertThat(bench.record.state).isEqualTo(RecordControl.State.RECORDING);
        bench.press("home");
        assertThat(lanes().isShowing()).isTrue();
    }

    @Test
    void givenLargerText_whenChosen_thenFiguresAndButtonsGrow() {
        demo(380);
        int before = bench.find(AbstractButton.class, "measure").getHeight();
        JComboBox<?> scale = bench.find(JComboBox.class, "text-scale");
        bench.act(() -> scale.setSelectedIndex(3));
        assertThat(bench.model.settings().textScale()).isEqualTo(1.5);
        assertThat(bench.find(AbstractButton.class, "measure").getHeight()).isGreaterThan(before);
    }

    @Test
    void givenTheKeyboardAlone_whenKeysArePressed_thenEveryCommandWorks() {
        demo(100);
        key(KeyEvent.VK_R, KeyEvent.CTRL_DOWN_MASK);
        assertThat(bench.record.starts).isEqualTo(1);
        key(KeyEvent.VK_R, KeyEvent.CTRL_DOWN_MASK);
        assertThat(bench.record.stops).isEqualTo(1);
        bench.record.finished();
        key(KeyEvent.VK_O, KeyEvent.CTRL_DOWN_MASK);
        assertThat(bench.model.controls().replay()).isTrue();
        key(KeyEvent.VK_P, KeyEvent.CTRL_DOWN_MASK);
        assertThat(bench.model.controls().playing()).isTrue();
        key(KeyEvent.VK_RIGHT, KeyEvent.CTRL_DOWN_MASK);
        assertThat(bench.model.controls().playing()).isFalse();
        key(KeyEvent.VK_0, KeyEvent.CTRL_DOWN_MASK);
        assertThat(bench.model.controls().span()).isEqualTo(SpanChoice.ALL);
        key(KeyEvent.VK_T, KeyEvent.CTRL_DOWN_MASK);
        assertThat(bench.model.settings().theme()).isEqualTo(Theme.DARK);
        bench.act(() -> bench.model.fail("Something went wrong. Do this."));
        assertThat(bench.find(Component.class, "banner").isVisible()).isTrue();
        key(KeyEvent.VK_ESCAPE, 0);
        assertThat(bench.find(Component.class, "banner").isVisible()).isFalse();
    }

    private void key(int code, int modifiers) {
        Component target = lanes();
        bench.act(() -> target.dispatchEvent(
                new KeyEvent(target, KeyEvent.KEY_PRESSED, 1, modifiers, code, KeyEvent.CHAR_UNDEFINED)));
    }

    @Test
    void givenTrouble_whenTold_thenItIsOneLineThatCanBeTakenAway() {
        bench.act(() -> bench.model.fail("hall.dwrec is not a recording. Choose another file."));
        assertThat(bench.find(JLabel.class, "banner.text").getText()).startsWith("hall.dwrec is not");
        assertThat(bench.find(Component.class, "banner").isVisible()).isTrue();
        bench.press("banner.dismiss");
        assertThat(bench.find(Component.class, "banner").isVisible()).isFalse();
    }

    @Test
    void givenEveryControl_whenLookedAt_thenItHasANameAndIsLargeEnoughForAFinger() {
        demo(380);
        List<String> wrong = new ArrayList<>();
        Bench.on(() -> {
            inspect(bench.window().window().getContentPane(), wrong);
            return true;
        });
        assertThat(wrong).isEmpty();
    }

    private static void inspect(Container in, List<String> wrong) {
        for (Component each : in.getComponents()) {
            boolean control = each instanceof AbstractButton || each instanceof JComboBox<?>;
            if (control && each.isShowing()) {
                String name = each.getAccessibleContext().getAccessibleName();
                if (each.getName() == null || name == null || name.isBlank()) {
                    wrong.add("no name: " + each);
                }
                if (each.getHeight() < 44 || each.getWidth() < 44) {
                    wrong.add("too small: " + each.getName() + " " + each.getSize());
                }
            } else if (each instanceof Container inside && !control) {
                inspect(inside, wrong);
            }
        }
    }
}
