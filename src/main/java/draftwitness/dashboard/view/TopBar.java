package draftwitness.dashboard.view;

import draftwitness.dashboard.Controls;
import draftwitness.dashboard.DashboardModel;
import draftwitness.dashboard.Desk;
import draftwitness.dashboard.UnitChoice;
import java.awt.Dimension;
import javax.swing.JButton;
import javax.swing.JComboBox;
import javax.swing.JLabel;
import javax.swing.JPanel;
import net.miginfocom.swing.MigLayout;

/** Above the lanes: what is looked at, opening, units, theme. Event dispatch thread. */
final class TopBar extends JPanel {
    private final JLabel title;
    private final JLabel position;
    private final JComboBox<UnitChoice> units;
    private final JButton theme;

    TopBar(DashboardModel model, Desk desk, Look look, Runnable themeChanged) {
        super(new MigLayout("insets 8 24 6 12, fillx, gap 8", "[grow,fill][][][][][]", "[center]"));
        setName("top");
        title = Bars.label("title", look.bold(20));
        position = Bars.label("position", look.font(16));
        units = new JComboBox<>(UnitChoice.values());
        units.setFont(look.font(15));
        Bars.name(units, "units");
        units.setPreferredSize(new Dimension(look.px(120), look.px(Bars.TOUCH)));
        units.addActionListener(e -> model.choose(units.getItemAt(units.getSelectedIndex())));
        theme = Bars.button("theme", look, () -> {
            model.choose(model.settings().theme().other());
            themeChanged.run();
        });
        add(title, "wmin 120");
        add(position, "gapright 12");
        add(Bars.button("demo", look, desk::demo));
        add(Bars.button("open", look, desk::open));
        add(units);
        add(theme);
    }

    void show(Controls controls) {
        Bars.text(title, controls.title());
        Bars.text(position, controls.position());
        if (units.getSelectedItem() != controls.settings().units()) {
            units.setSelectedItem(controls.settings().units());
        }
    }
}
