package draftwitness.dashboard.view;

import draftwitness.dashboard.DashboardModel;
import draftwitness.dashboard.Desk;
import draftwitness.dashboard.Words;
import java.awt.Dimension;
import java.util.ArrayList;
import java.util.List;
import javax.swing.JButton;
import javax.swing.JCheckBoxMenuItem;
import javax.swing.JMenuItem;
import javax.swing.JPopupMenu;
import javax.swing.KeyStroke;

/** What is needed less often, behind one button. Event dispatch thread. */
final class MoreMenu {
    private final JPopupMenu menu = new JPopupMenu();
    private final JCheckBoxMenuItem alarm = new JCheckBoxMenuItem();
    private final Look look;
    private final List<JMenuItem> needSession = new ArrayList<>();
    private final List<JMenuItem> needRecording = new ArrayList<>();
    private final JMenuItem needZero;
    private final JMenuItem needSensors;

    MoreMenu(DashboardModel model, Desk desk, Look look, Runnable keys) {
        this.look = look;
        menu.setName("more.menu");
        needRecording.add(item("export.table", "control E", desk::exportTable));
        needSession.add(item("export.picture", "control I", desk::savePicture));
        needSession.add(item("notes.toggle", "control N", model.notes()::toggle));
        needZero = item("zero", "", () -> ZeroBox.open(menu.getInvoker(), model, look));
        needSensors = item("sensors", "", () -> SensorsBox.open(menu.getInvoker(), model, look));
        needRecording.add(item("compare", "control K", desk::compare));
        needRecording.add(item("compare.with", "control shift K", desk::compareWith));
        menu.addSeparator();
        dress(alarm, "alarm");
        alarm.addActionListener(e -> model.chooseAlarm(alarm.isSelected()));
        item("alarm.test", "", desk::testAlarm);
        menu.addSeparator();
        item("keys", "F1", keys);
    }

    private JMenuItem item(String key, String stroke, Runnable action) {
        JMenuItem item = new JMenuItem();
        if (!stroke.isEmpty()) {
            item.setAccelerator(KeyStroke.getKeyStroke(stroke));
        }
        dress(item, key); // last: it takes the width that text and key need together
        item.addActionListener(e -> action.run());
        return item;
    }

    private void dress(JMenuItem item, String key) {
        item.setText(Words.get(key));
        Bars.name(item, key);
        item.setFont(look.font(15));
        item.setPreferredSize(new Dimension(item.getPreferredSize().width, look.px(Bars.TOUCH)));
        menu.add(item);
    }

    /** The button that opens the menu. */
    JButton button(DashboardModel model) {
        JButton[] made = new JButton[1];
        JButton button = Bars.button("more", look, () -> {
            needSession.forEach(i -> i.setEnabled(!model.isAtStart()));
            needRecording.forEach(i -> i.setEnabled(model.controls().replay()));
            needZero.setEnabled(!model.isAtStart() && model.zeros().isPossible());
            needSensors.setEnabled(!model.isAtStart() && !model.sensors().isEmpty());
            alarm.setSelected(model.settings().alarm());
            menu.show(made[0], 0, made[0].getHeight());
        });
        made[0] = button;
        button.setComponentPopupMenu(menu);
        return button;
    }
}
