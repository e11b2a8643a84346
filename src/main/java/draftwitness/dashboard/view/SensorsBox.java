package draftwitness.dashboard.view;

import draftwitness.dashboard.DashboardModel;
import draftwitness.dashboard.Words;
import java.awt.Component;
import javax.swing.BorderFactory;
import javax.swing.JScrollPane;
import javax.swing.JTextArea;

/**
 * A box with the figures of each sensor's connection: readings, bytes, what was not taken and why, how often it was
 * opened again, delay, battery. It stays until closed. Event dispatch thread.
 */
final class SensorsBox {
    private static final int LOOK_MILLIS = 500;

    private SensorsBox() {}

    /** Opens the box over a window. */
    static void open(Component over, DashboardModel model, Look look) {
        JTextArea text = new JTextArea(String.join("\n\n", model.sensors()), 8, 60);
        text.setName("sensors.text");
        text.getAccessibleContext().setAccessibleName(Words.get("sensors.title"));
        text.setEditable(false);
        text.setLineWrap(true);
        text.setWrapStyleWord(true);
        text.setFont(look.font(15));
        text.setBorder(BorderFactory.createEmptyBorder(look.px(12), look.px(16), look.px(12), look.px(16)));
        SideBox.open(
                over,
                "sensors",
                new JScrollPane(text),
                LOOK_MILLIS,
                () -> show(text, String.join("\n\n", model.sensors())));
    }

    private static void show(JTextArea text, String now) {
        if (!now.equals(text.getText())) {
            text.setText(now);
        }
    }
}
