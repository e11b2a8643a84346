package draftwitness.dashboard.view;

import static org.assertj.core.api.Assertions.assertThat;

import draftwitness.dashboard.DashboardModel;
import draftwitness.dashboard.Settings;
import draftwitness.dashboard.Theme;
import draftwitness.dashboard.ZeroModel;
import draftwitness.reading.Tap;
import draftwitness.reading.ZeroControl;
import draftwitness.testkit.Peers;
import java.awt.Component;
import java.awt.Container;
import java.awt.Font;
import java.awt.Window;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.atomic.AtomicReference;
import javax.swing.JButton;
import javax.swing.JFrame;
import javax.swing.SwingUtilities;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Test;

/** The box for taking zeros, in a real window. */
@org.junit.jupiter.api.Timeout(60)
class ZeroBoxTest {

    /** A session's zeros that remember what was asked. */
    private static final class Asked implements ZeroControl {
        private final List<String> asked = new ArrayList<>();
        private Status status = new Status(State.NONE, 0, "", 0);

        @Override
        public List<Tap> taps() {
            return List.of(Tap.DRAFT_SWITCH);
        }

        @Override
        public void start(Tap tap) {
            asked.add("start " + tap.role());
            status = new Status(State.TAKING, 0.4, "3 s more", 0);
        }

        @Override
        public void cancel(Tap tap) {
            asked.add("cancel " + tap.role());
            status = new Status(State.NONE, 0, "", 0);
        }

        @Override
        public void undo(Tap tap) {
            asked.add("undo " + tap.role());
            status = new Status(State.UNDONE, 0, "taken back", 0);
        }

        @Override
        public Status status(Tap tap) {
            return status;
        }
    }

    private static @Nullable Component find(Container in, String name) {
        for (Component c : in.getComponents()) {
            if (name.equals(c.getName())) {
                return c;
            }
            Component within = c instanceof Container inner ? find(inner, name) : null;
            if (within != null) {
                return within;
            }
        }
        return null;
    }

    private static JButton button(String name) {
        for (Window w : Window.getWindows()) {
            if (w.isShowing() && find(w, name) instanceof JButton button) {
                return button;
            }
        }
        throw new AssertionError("no button " + name);
    }

    @Test
    void givenALiveSession_whenZeroIsPressedAndTakenBack_thenTheSessionIsAskedAndTheWordsAreShown() throws Exception {
        Peers.needDisplay();
        Asked control = new Asked();
        AtomicReference<@Nullable JFrame> frame = new AtomicReference<>();
        SwingUtilities.invokeAndWait(() -> {
            DashboardModel model = new DashboardModel(
                    ZoneOffset.UTC, Runnable::run, Runnable::run, Settings.defaults(), settings -> {});
            model.zeros().follow(control);
            JFrame over = new JFrame("zero");
            over.setSize(900, 500);
            over.setVisible(true);
            frame.set(over);
            ZeroBox.open(over.getContentPane(), model, new Look(Theme.LIGHT.palette(), Font.SANS_SERIF, 1));
            button("zero.go.draft.switch").doClick();
        });
        SwingUtilities.invokeAndWait(() -> {
            assertThat(control.asked).containsExactly("start draft.switch");
            control.status = new ZeroControl.Status(ZeroControl.State.TAKEN, 1, "zero taken", 1.5);
        });
        AtomicReference<@Nullable JButton> undo = new AtomicReference<>();
        while (undo.get() == null) { // until the box has looked again; the test's own limit ends it
            SwingUtilities.invokeAndWait(() -> {
                JButton found = button("zero.undo.draft.switch");
                undo.set(found.isEnabled() ? found : null);
            });
        }
        SwingUtilities.invokeAndWait(() -> {
            button("zero.undo.draft.switch").doClick();
            assertThat(control.asked).containsExactly("start draft.switch", "undo draft.switch");
            for (Window w : Window.getWindows()) {
                w.dispose();
            }
        });
    }

    @Test
    void givenStates_whenShown_thenRowsTellWhatToDoOrWhatCameOfIt() {
        DashboardModel model =
                new DashboardModel(ZoneOffset.UTC, Runnable::run, Runnable::run, Settings.defaults(), settings -> {});
        assertThat(model.zeros().isPossible()).isFalse();
        Asked control = new Asked();
        model.zeros().follow(control);
        assertThat(model.zeros().isPossible()).isTrue();
        assertThat(model.zeros().rows().get(0).words()).contains("open to air");
        model.zeros().press(Tap.DRAFT_SWITCH);
        ZeroModel.Row taking = model.zeros().rows().get(0);
        assertThat(taking.taking()).isTrue();
        assertThat(taking.percent()).isEqualTo(40);
        model.zeros().press(Tap.DRAFT_SWITCH);
        assertThat(control.asked).containsExactly("start draft.switch", "cancel draft.switch");
        control.status = new ZeroControl.Status(ZeroControl.State.REFUSED, 0, "moved by 12 Pa", 0);
        ZeroModel.Row refused = model.zeros().rows().get(0);
        assertThat(refused.refused()).isTrue();
        assertThat(refused.undoable()).isFalse();
    }
}
