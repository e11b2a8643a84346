package draftwitness.dashboard.view;

import static org.assertj.core.api.Assertions.assertThat;

import draftwitness.dashboard.FakeNotes;
import draftwitness.dashboard.NoteMark;
import draftwitness.dashboard.Theme;
import draftwitness.dashboard.Work;
import java.awt.Component;
import java.awt.Container;
import java.awt.Rectangle;
import java.awt.event.KeyEvent;
import java.awt.event.MouseEvent;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Set;
import java.util.stream.Collectors;
import javax.swing.AbstractButton;
import javax.swing.InputMap;
import javax.swing.JComboBox;
import javax.swing.JComponent;
import javax.swing.JDialog;
import javax.swing.JLabel;
import javax.swing.JList;
import javax.swing.JScrollBar;
import javax.swing.JTextField;
import javax.swing.KeyStroke;
import javax.swing.SwingUtilities;
import javax.swing.text.JTextComponent;
import org.junit.jupiter.api.Test;

/** Notes, keys, exports and long work in the real window. */
class WindowCommandsTest extends OpenWindow {
    private static final long SECOND = 1_000_000_000L;

    /** Second keys for what another key does and the sheet tells. */
    private static final Set<String> TWINS = Set.of("control EQUALS", "control ADD", "control SUBTRACT");

    private FakeNotes opened() {
        bench.press("open");
        FakeNotes notes = new FakeNotes();
        bench.act(() -> bench.model.notes().follow(notes));
        return notes;
    }

    @Test
    void givenARecordingAtAMoment_whenANoteIsTypedAndAdded_thenItIsKeptThereAndFlaggedOnTheTimeAxis() {
        FakeNotes kept = opened();
        bench.act(() -> bench.model.goTo(60 * SECOND));
        bench.press("notes.toggle");
        bench.type("notes.text", "tube pinched here");
        bench.press("notes.add");
        assertThat(kept.notes()).containsExactly(new NoteMark(1, 60 * SECOND, 60 * SECOND, "tube pinched here"));
        TimeAxisView axis = bench.find(TimeAxisView.class, "time-axis");
        int x = Bench.on(() -> (int) Math.round(axis.xOf(kept.notes().get(0))));
        Rectangle flag = Bench.on(() -> SwingUtilities.convertRectangle(
                axis, new Rectangle(x - 2, 0, 18, 18), bench.window().window().getContentPane()));
        assertThat(Pixels.count(bench.picture(), flag, Theme.LIGHT.palette().accent()))
                .isGreaterThan(20);
        assertThat(axis.getToolTipText(new MouseEvent(axis, MouseEvent.MOUSE_MOVED, 1, 0, x, 5, 0, false)))
                .contains("tube pinched here");
    }

    @Test
    void givenNotes_whenOneIsChosenChangedRemovedAndUndone_thenThePlayheadGoesThereAndNothingIsLost() {
        FakeNotes kept = opened();
        bench.act(() -> {
            kept.add(20 * SECOND, "first");
            kept.add(90 * SECOND, "second");
        });
        bench.press("notes.toggle");
        JList<?> list = bench.find(JList.class, "notes.list");
        bench.act(() -> list.setSelectedIndex(1));
        assertThat(bench.model.momentNanos()).isEqualTo(90 * SECOND);
        bench.type("notes.text", "second, corrected");
        bench.press("notes.change");
        assertThat(kept.notes().get(1).text()).isEqualTo("second, corrected");
        bench.act(() -> list.setSelectedIndex(0));
        bench.press("notes.remove");
        assertThat(kept.notes()).hasSize(1);
        bench.press("notes.undo");
        assertThat(kept.notes()).extracting(NoteMark::text).containsExactly("first", "second, corrected");
    }

    @Test
    void givenATextTypedAndNotAdded_whenTheThemeChanges_thenItIsStillThere() {
        opened();
        bench.press("notes.toggle");
        bench.type("notes.text", "half a thou");
        bench.press("theme");
        assertThat(bench.model.notes().typed()).isEqualTo("half a thou");
        assertThat(bench.find(JTextField.class, "notes.text").getText()).isEqualTo("half a thou");
    }

    @Test
    void givenARecording_whenItIsExported_thenTableAndPictureAreAskedForByItsName() {
        opened();
        key(KeyEvent.VK_E, KeyEvent.CTRL_DOWN_MASK);
        key(KeyEvent.VK_I, KeyEvent.CTRL_DOWN_MASK);
        assertThat(bench.asked)
                .contains(
                        "write hall.csv?", "table out/hall.csv", "write hall.png?", "picture out/hall.png of 5 lanes");
    }

    @Test
    void givenLongWork_whenItGoesOn_thenItIsShownWithItsShareAndCanBeCalledOff() {
        Component bar = bench.find(Component.class, "work");
        assertThat(bar.isVisible()).isFalse();
        try (Work.Job job = bench.model.work().begin("Writing hall.csv")) {
            job.share(0.42);
            bench.settle();
            assertThat(bar.isVisible()).isTrue();
            assertThat(bench.find(JLabel.class, "work.text").getText()).isEqualTo("Writing hall.csv: 42 %");
            bench.press("work.cancel");
            assertThat(job.isCancelled()).isTrue();
        }
        bench.settle();
        assertThat(bar.isVisible()).isFalse();
        bench.act(() -> bench.model.work().tell("hall.csv was written."));
        assertThat(bench.find(AbstractButton.class, "work.cancel").getText()).isEqualTo("Close");
        bench.press("work.cancel");
        assertThat(bar.isVisible()).isFalse();
    }

    @Test
    void givenARecording_whenHomeAndEndArePressed_thenThePlayheadGoesToItsEnds() {
        opened();
        key(KeyEvent.VK_END, 0);
        long end = bench.model.momentNanos();
        assertThat(end).isEqualTo(130 * SECOND);
        key(KeyEvent.VK_HOME, 0);
        assertThat(bench.model.momentNanos()).isZero();
    }

    @Test
    void givenEveryKeyOfTheWindow_whenTheSheetIsShown_thenItTellsWhatTheKeyDoes() {
        Set<String> told = Bench.on(
                () -> KeySheet.rows(map()).stream().map(KeySheet.Row::key).collect(Collectors.toSet()));
        for (KeyStroke stroke : map().allKeys()) {
            String name = String.valueOf(map().get(stroke));
            if (!TWINS.contains(name)) {
                assertThat(told).as(name).contains(KeySheet.said(name));
            }
        }
        bench.act(() -> SwingUtilities.notifyAction(
                bench.window().window().getRootPane().getActionMap().get("F1"),
                KeyStroke.getKeyStroke("F1"),
                new KeyEvent(bench.window().window(), KeyEvent.KEY_PRESSED, 1, 0, KeyEvent.VK_F1, ' '),
                bench.window().window().getRootPane(),
                0));
        JDialog sheet =
                Bench.on(() -> (JDialog) Arrays.stream(bench.window().window().getOwnedWindows())
                        .filter(w -> "keys.sheet".equals(w.getName()))
                        .findFirst()
                        .orElseThrow());
        assertThat(sheet.isVisible()).isTrue();
        bench.act(sheet::dispose);
    }

    private InputMap map() {
        return bench.window().window().getRootPane().getInputMap(JComponent.WHEN_IN_FOCUSED_WINDOW);
    }

    private void key(int code, int modifiers) {
        Component target = bench.find(LanesView.class, "lanes");
        bench.act(() -> target.dispatchEvent(
                new KeyEvent(target, KeyEvent.KEY_PRESSED, 1, modifiers, code, KeyEvent.CHAR_UNDEFINED)));
    }

    @Test
    void givenEveryComponentThatTakesTheKeyboard_whenWalked_thenScreenReadersHaveAName() {
        opened();
        bench.press("notes.toggle");
        List<String> nameless = new ArrayList<>();
        Bench.on(() -> {
            walk(bench.window().window().getContentPane(), nameless);
            return true;
        });
        assertThat(nameless).isEmpty();
    }

    private static void walk(Container in, List<String> nameless) {
        for (Component each : in.getComponents()) {
            boolean control = each instanceof AbstractButton
                    || each instanceof JComboBox<?>
                    || each instanceof JTextComponent
                    || each instanceof JList<?>
                    || each instanceof Painted;
            if (control) {
                String name = each.getAccessibleContext().getAccessibleName();
                if (name == null || name.isBlank()) {
                    nameless.add(each.toString());
                }
            }
            boolean inside = each instanceof JComboBox<?> || each instanceof JScrollBar;
            if (each instanceof Container container && !inside) {
                walk(container, nameless);
            }
        }
    }
}
