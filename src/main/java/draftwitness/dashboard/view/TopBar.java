package draftwitness.dashboard.view;

import draftwitness.dashboard.Controls;
import draftwitness.dashboard.DashboardModel;
import draftwitness.dashboard.Desk;
import draftwitness.dashboard.UnitChoice;
import draftwitness.dashboard.Words;
import java.awt.Dimension;
import javax.swing.JButton;
import javax.swing.JComboBox;
import javax.swing.JLabel;
import javax.swing.JPanel;
import javax.swing.JToggleButton;
import net.miginfocom.swing.MigLayout;

/** Above everything: what is looked at, start screen, opening, units, text size, theme. Event dispatch thread. */
final class TopBar extends JPanel {
    private static final double[] TEXT_SCALES = {0.85, 1, 1.25, 1.5, 2};

    private final JLabel title;
    private final JLabel position;
    private final JToggleButton home;
    private final JToggleButton guided;
    private final transient DashboardModel model;
    private final JComboBox<UnitChoice> units;
    private final JComboBox<TextScale> textScale = new JComboBox<>();
    private boolean showing;

    private record TextScale(double scale) {
        @Override
        public String toString() {
            return Words.get("text-scale", String.valueOf(Math.round(scale * 100)));
        }
    }

    TopBar(DashboardModel model, Desk desk, Look look, Runnable lookChanged, Runnable keys) {
        super(new MigLayout("insets 8 24 6 12, fillx, gap 8", "[grow,fill][][][][][][][]", "[center]"));
        setName("top");
        title = Bars.label("title", look.bold(20));
        position = Bars.label("position", look.font(16));
        this.model = model;
        home = Bars.toggle("home", look, model::toggleStart);
        guided = Bars.toggle("guided.open", look, model::toggleGuided);
        units = new JComboBox<>(UnitChoice.values());
        box(units, "units", look);
        units.addActionListener(e -> {
            if (!showing) {
                model.choose(units.getItemAt(units.getSelectedIndex()));
            }
        });
        for (double scale : TEXT_SCALES) {
            textScale.addItem(new TextScale(scale));
        }
        box(textScale, "text-scale", look);
        textScale.addActionListener(e -> {
            TextScale chosen = textScale.getItemAt(textScale.getSelectedIndex());
            if (!showing && chosen != null) {
                model.chooseTextScale(chosen.scale());
                lookChanged.run();
            }
        });
        JButton theme = Bars.button("theme", look, () -> {
            model.choose(model.settings().theme().other());
            lookChanged.run();
        });
        add(title, "wmin 60");
        add(position, "gapright 12, wmin 0");
        add(home);
        add(guided);
        add(Bars.button("open", look, desk::open));
        add(units);
        add(textScale);
        add(theme);
        add(new MoreMenu(model, desk, look, keys).button(model));
    }

    private static void box(JComboBox<?> box, String name, Look look) {
        box.setFont(look.font(15));
        Bars.name(box, name);
        box.setPreferredSize(new Dimension(look.px(112), look.px(Bars.TOUCH)));
    }

    void show(Controls controls) {
        showing = true;
        Bars.text(title, controls.title());
        Bars.text(position, controls.position());
        home.setSelected(controls.atStart());
        home.setEnabled(controls.opened());
        guided.setSelected(model.guided().isOpen() && !controls.atStart());
        guided.setEnabled(model.guided().isPossible());
        units.setSelectedItem(controls.settings().units());
        textScale.setSelectedItem(new TextScale(controls.settings().textScale()));
        showing = false;
    }
}
