package draftwitness.dashboard.view;

import draftwitness.dashboard.DashboardModel;
import draftwitness.dashboard.Notice;
import draftwitness.dashboard.Tone;
import java.awt.BorderLayout;
import java.util.Optional;
import javax.swing.BorderFactory;
import javax.swing.JButton;
import javax.swing.JLabel;
import javax.swing.JPanel;
import net.miginfocom.swing.MigLayout;
import org.jspecify.annotations.Nullable;

/** A quiet line about an episode, with the way to it; hidden while there is none. Event dispatch thread. */
final class NoticeBar extends JPanel {
    private final Look look;
    private final JLabel line;
    private final JButton go;
    private @Nullable Notice shown;

    NoticeBar(DashboardModel model, Look look) {
        super(new BorderLayout());
        this.look = look;
        setName("notice");
        JPanel inside = new JPanel(new MigLayout("insets 2 24 2 12, fillx, hidemode 3", "[grow,fill][][]", "[center]"));
        line = Bars.label("notice.text", look.font(15));
        line.setIconTextGap(look.px(8));
        go = Bars.button("notice.show", look, () -> {
            Notice notice = shown;
            if (notice != null) {
                model.showEpisode(notice.episode());
            }
        });
        inside.add(line, "wmin 0");
        inside.add(go);
        inside.add(Bars.button("notice.dismiss", look, model.story()::dismiss));
        inside.setBackground(Look.color(look.palette().lane()));
        add(inside);
        setVisible(false);
    }

    void show(Optional<Notice> notice) {
        Notice next = notice.orElse(null);
        if (next != null && !next.equals(shown)) {
            Bars.text(line, next.text());
            line.setToolTipText(next.text());
            line.setIcon(new ShapeIcon(
                    next.tone() == Tone.DANGER ? ShapeIcon.Shape.DANGER : ShapeIcon.Shape.ATTENTION,
                    look.px(18),
                    look.ink(next.tone()).getRGB() & 0xFFFFFF));
            line.getAccessibleContext().setAccessibleName(next.text());
            go.setVisible(next.news());
            setBorder(BorderFactory.createMatteBorder(0, look.px(6), 0, 0, look.ink(next.tone())));
        }
        shown = next;
        if (isVisible() != (next != null)) {
            setVisible(next != null);
        }
    }
}
