package draftwitness.dashboard.view;

import static org.assertj.core.api.Assertions.assertThat;

import draftwitness.dashboard.GuidedFeed;
import draftwitness.dashboard.Theme;
import java.awt.Component;
import java.awt.Rectangle;
import java.awt.image.BufferedImage;
import java.util.ArrayList;
import java.util.List;
import javax.swing.AbstractButton;
import javax.swing.JLabel;
import javax.swing.JTextArea;
import javax.swing.SwingUtilities;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;

/** A guided measurement from the first press to the verdict, in the real window on a real (virtual) display. */
class GuidedWindowTest extends OpenWindow {
    private final List<String> kept = new ArrayList<>();
    private final GuidedFeed feed = new GuidedFeed();

    @BeforeEach
    void showDemo() {
        feed.begin(bench.feed.header());
        bench.feed.play(bench.session, 0, 50);
        bench.press("start.demo");
        bench.act(() -> bench.model.guided().live(feed, (result, told) -> {
            kept.add(result.kind().id());
            told.accept("Kept with the recording, as a note.");
        }));
    }

    private void play(int from, int to) {
        for (int cell = from; cell < to; cell++) {
            feed.slice(bench.feed.slice(cell));
        }
        bench.settle();
    }

    @Test
    void givenTheDemo_whenAGuidedMeasurementIsPressedThrough_thenPictureTraceVerdictAndNote() {
        bench.press("guided.open");
        assertThat(bench.find(AbstractButton.class, "guided.choice.static-pressure")
                        .isEnabled())
                .isFalse();
        bench.press("guided.choice.two-taps");
        BufferedImage before = bench.picture();
        Rectangle picture = place(bench.find(GuidedPicture.class, "guided.picture"));
        assertThat(Pixels.count(before, picture, Theme.LIGHT.palette().accent()))
                .as("hoses and rings")
                .isGreaterThan(500);
        assertThat(bench.find(JTextArea.class, "guided.cautions").getText()).contains("Carbon monoxide kills");
        bench.press("guided.go.button");
        play(0, 300);
        assertThat(bench.find(AbstractButton.class, "guided.go.button").getText())
                .startsWith("Stop");
        assertThat(bench.find(JLabel.class, "guided.figure").getText()).startsWith("\u22122");
        play(300, 620);
        assertThat(bench.find(JTextArea.class, "guided.verdict").getText()).startsWith("switch against inducer: 80");
        assertThat(bench.find(JLabel.class, "guided.kept-text").getText()).startsWith("Kept");
        assertThat(kept).containsExactly("two-taps");
        Rectangle trace = place(bench.find(GuidedTrace.class, "guided.trace"));
        assertThat(Pixels.count(bench.picture(), trace, Theme.LIGHT.palette().trace()))
                .isGreaterThan(200);
        bench.press("guided.back");
        bench.press("guided.close");
        assertThat(bench.model.guided().isOpen()).isFalse();
    }

    @Test
    void givenTheSmallestWindow_whenMeasuring_thenTheBigButtonIsThere_andLargeEnoughForAGlove() {
        bench.press("guided.open");
        bench.press("guided.choice.gas");
        bench.size(1366, 768);
        AbstractButton go = bench.find(AbstractButton.class, "guided.go.button");
        assertThat(go.isShowing()).isTrue();
        assertThat(go.getHeight()).isGreaterThanOrEqualTo(60);
        assertThat(go.getWidth()).isGreaterThan(600);
        Rectangle content =
                new Rectangle(bench.window().window().getContentPane().getSize());
        assertThat(content.contains(place(go)))
                .as("the button lies inside the window")
                .isTrue();
    }

    private Rectangle place(Component component) {
        return Bench.on(() -> SwingUtilities.convertRectangle(
                component.getParent(),
                component.getBounds(),
                bench.window().window().getContentPane()));
    }
}
