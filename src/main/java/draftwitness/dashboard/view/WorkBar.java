package draftwitness.dashboard.view;

import draftwitness.dashboard.Words;
import draftwitness.dashboard.Work;
import java.awt.Dimension;
import javax.swing.JButton;
import javax.swing.JLabel;
import javax.swing.JPanel;
import javax.swing.JProgressBar;
import net.miginfocom.swing.MigLayout;
import org.jspecify.annotations.Nullable;

/** Long work behind the window: what, how far, and a button to call it off; hidden while there is none. EDT. */
final class WorkBar extends JPanel {
    private static final int STEPS = 1000;

    private final JLabel line;
    private final JButton cancel;
    private final JProgressBar bar = new JProgressBar(0, STEPS);

    WorkBar(Work work, Look look) {
        super(new MigLayout("insets 4 24 4 12, fillx, gap 12", "[][grow,fill][]", "[center]"));
        setName("work");
        line = Bars.label("work.text", look.font(15));
        Bars.name(bar, "work.bar");
        bar.setPreferredSize(new Dimension(look.px(120), look.px(10)));
        add(line, "wmin 0");
        add(bar, "wmin 60");
        cancel = Bars.button("work.cancel", look, work::cancel);
        add(cancel);
        setVisible(false);
    }

    void show(Work.@Nullable Shown shown) {
        if (shown != null) {
            Bars.text(line, shown.text());
            String word = Words.get(shown.over() ? "work.close" : "work.cancel");
            if (!word.equals(cancel.getText())) {
                cancel.setText(word);
                cancel.getAccessibleContext().setAccessibleName(word);
            }
            bar.setVisible(!shown.over());
            bar.setValue((int) Math.round(shown.share() * STEPS));
        }
        if (isVisible() != (shown != null)) {
            setVisible(shown != null);
        }
    }
}
