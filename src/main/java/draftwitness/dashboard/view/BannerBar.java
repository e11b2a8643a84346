package draftwitness.dashboard.view;

import draftwitness.dashboard.Controls;
import draftwitness.dashboard.DashboardModel;
import java.awt.BorderLayout;
import javax.swing.BorderFactory;
import javax.swing.JLabel;
import javax.swing.JPanel;
import net.miginfocom.swing.MigLayout;

/** One line about trouble: what happened and what to do; hidden while there is none. Event dispatch thread. */
final class BannerBar extends JPanel {
    private final JLabel line;

    BannerBar(DashboardModel model, Look look) {
        super(new BorderLayout());
        setName("banner");
        JPanel inside = new JPanel(new MigLayout("insets 6 24 6 12, fillx", "[grow,fill][]", "[center]"));
        line = Bars.label("banner.text", look.bold(15));
        line.setForeground(Look.color(look.palette().danger()));
        line.setIcon(new ShapeIcon(
                ShapeIcon.Shape.DANGER, look.px(18), look.palette().danger()));
        line.setIconTextGap(look.px(8));
        inside.add(line, "wmin 0");
        inside.add(Bars.button("banner.dismiss", look, model::dismissBanner));
        inside.setBackground(Look.color(look.palette().lane()));
        inside.setBorder(BorderFactory.createMatteBorder(
                0, look.px(6), 0, 0, Look.color(look.palette().danger())));
        add(inside);
        setVisible(false);
    }

    void show(Controls controls) {
        String text = controls.banner();
        if (text != null) {
            Bars.text(line, text);
            line.setToolTipText(text);
            line.getAccessibleContext().setAccessibleName(text);
        }
        if (isVisible() != (text != null)) {
            setVisible(text != null);
        }
    }
}
