package draftwitness.dashboard.view;

import draftwitness.dashboard.DashboardModel;
import draftwitness.dashboard.Desk;
import draftwitness.dashboard.SpanChoice;
import draftwitness.dashboard.TimeSpan;
import java.awt.Component;
import java.awt.KeyboardFocusManager;
import javax.swing.JComponent;
import javax.swing.JRootPane;
import javax.swing.text.JTextComponent;

/** The keyboard: every command has a key. Event dispatch thread. */
final class Keys {
    private final JRootPane root;

    private Keys(JRootPane root) {
        this.root = root;
    }

    /** Binds all keys of a window. */
    static void install(JRootPane root, DashboardModel model, Desk desk, Runnable themeChanged, Runnable sheet) {
        Keys keys = new Keys(root);
        keys.bind("control R", desk::toggleRecord);
        keys.bind("control O", desk::open);
        keys.bind("control D", desk::demo);
        keys.bind("control P", model::togglePlay);
        keys.bind("control LEFT", () -> model.step(-1));
        keys.bind("control RIGHT", () -> model.step(1));
        keys.bind("control shift LEFT", () -> model.step(-10));
        keys.bind("control shift RIGHT", () -> model.step(10));
        keys.bind("alt LEFT", () -> model.pan(-0.25));
        keys.bind("alt RIGHT", () -> model.pan(0.25));
        keys.bind("control EQUALS", () -> zoom(model, 1 / 1.5));
        keys.bind("control PLUS", () -> zoom(model, 1 / 1.5));
        keys.bind("control ADD", () -> zoom(model, 1 / 1.5));
        keys.bind("control MINUS", () -> zoom(model, 1.5));
        keys.bind("control SUBTRACT", () -> zoom(model, 1.5));
        keys.bind("control 0", () -> model.choose(SpanChoice.ALL));
        keys.bind("control F", model::toggleFollow);
        keys.bindUntyped("CLOSE_BRACKET", () -> model.stepEpisode(true));
        keys.bindUntyped("OPEN_BRACKET", () -> model.stepEpisode(false));
        keys.bindUntyped("F", model.findings()::toggle);
        keys.bindUntyped("N", () -> model.stepCycle(true));
        keys.bindUntyped("P", () -> model.stepCycle(false));
        keys.bind("control T", () -> {
            model.choose(model.settings().theme().other());
            themeChanged.run();
        });
        keys.bind("control H", model::toggleStart);
        keys.bind("control G", model::toggleGuided);
        keys.bind("control M", model::toggleMeasuring);
        keys.bind("control HOME", () -> model.goToEnd(false));
        keys.bind("control END", () -> model.goToEnd(true));
        keys.bind("control N", model.notes()::toggle);
        keys.bind("control E", desk::exportTable);
        keys.bind("control K", desk::compare);
        keys.bind("control shift K", desk::compareWith);
        keys.bind("control I", desk::savePicture);
        keys.bind("F1", sheet);
        keys.bind("ESCAPE", () -> {
            if (!model.clearMeasure() && !model.story().dismiss()) {
                model.dismissBanner();
            }
        });
    }

    private static void zoom(DashboardModel model, double factor) {
        TimeSpan shown = model.shownWindow();
        model.zoom(factor, shown.fromNanos() + shown.lengthNanos() / 2);
    }

    /** A key without control: does nothing while a text is being typed. */
    private void bindUntyped(String stroke, Runnable action) {
        bind(stroke, () -> {
            Component typing =
                    KeyboardFocusManager.getCurrentKeyboardFocusManager().getFocusOwner();
            if (!(typing instanceof JTextComponent)) {
                action.run();
            }
        });
    }

    private void bind(String stroke, Runnable action) {
        Bars.key(root, JComponent.WHEN_IN_FOCUSED_WINDOW, stroke, action);
    }
}
