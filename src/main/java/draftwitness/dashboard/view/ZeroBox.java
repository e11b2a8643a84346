package draftwitness.dashboard.view;

import draftwitness.dashboard.DashboardModel;
import draftwitness.dashboard.Words;
import draftwitness.dashboard.ZeroModel;
import java.awt.Component;
import java.awt.Window;
import java.util.List;
import javax.swing.JButton;
import javax.swing.JLabel;
import javax.swing.JPanel;
import javax.swing.JProgressBar;
import javax.swing.SwingUtilities;
import net.miginfocom.swing.MigLayout;

/**
 * A box beside the strips for taking zeros: one row a tap with a large button, how far it is, what came of it, and a
 * button that takes it back. It stays until closed, so that the strips can be watched meanwhile. Event dispatch thread.
 */
final class ZeroBox {
    private static final int LOOK_MILLIS = 150;

    private final DashboardModel model;
    private final Look look;
    private final JPanel rows =
            new JPanel(new MigLayout("insets 12 16 12 16, gap 10, wrap 5", "[][][grow,fill][160!][]"));
    private int shownRows = -1;

    private ZeroBox(DashboardModel model, Look look) {
        this.model = model;
        this.look = look;
        refresh();
    }

    /** Opens the box over a window. */
    static void open(Component over, DashboardModel model, Look look) {
        ZeroBox box = new ZeroBox(model, look);
        JLabel how = Bars.label("zero.how", look.font(15));
        how.setText("<html><body style='width:" + look.px(560) + "px'>" + Words.get("zero.how") + "</body></html>");
        JPanel all = new JPanel(new MigLayout("insets 16, gap 8, wrap 1", "[grow,fill]"));
        all.add(how);
        all.add(box.rows);
        SideBox.open(over, "zero", all, LOOK_MILLIS, box::refresh);
    }

    private void refresh() {
        List<ZeroModel.Row> now = model.zeros().rows();
        if (now.size() != shownRows) {
            shownRows = now.size();
            rows.removeAll();
            now.forEach(this::add);
            Window box = SwingUtilities.getWindowAncestor(rows);
            if (box != null) {
                box.pack();
            }
        }
        for (int i = 0; i < now.size(); i++) {
            show(now.get(i), i * 5);
        }
    }

    private void add(ZeroModel.Row row) {
        JLabel title = Bars.label("zero.tap." + row.title(), look.bold(16));
        title.setText(row.title());
        JButton go = Bars.button("zero.go", look, () -> model.zeros().press(row.tap()));
        go.setName("zero.go." + row.title());
        go.getAccessibleContext().setAccessibleName(Words.get("zero.go.name", row.title()));
        JLabel words = Bars.label("zero.words." + row.title(), look.font(15));
        JProgressBar progress = new JProgressBar(0, 100);
        progress.getAccessibleContext().setAccessibleName(Words.get("zero.progress.name", row.title()));
        JButton undo = Bars.button("zero.undo", look, () -> model.zeros().undo(row.tap()));
        undo.setName("zero.undo." + row.title());
        undo.getAccessibleContext().setAccessibleName(Words.get("zero.undo.name", row.title()));
        rows.add(title);
        rows.add(go);
        rows.add(words, "wmin 320");
        rows.add(progress);
        rows.add(undo);
    }

    private void show(ZeroModel.Row row, int first) {
        JButton go = (JButton) rows.getComponent(first + 1);
        go.setText(Words.get(row.taking() ? "zero.stop" : "zero.go"));
        Bars.text(
                (JLabel) rows.getComponent(first + 2),
                (row.refused() ? Words.get("zero.refused") + " " : "") + row.words());
        JProgressBar progress = (JProgressBar) rows.getComponent(first + 3);
        progress.setValue(row.percent());
        progress.setVisible(row.taking());
        rows.getComponent(first + 4).setEnabled(row.undoable());
    }
}
