package draftwitness.dashboard.view;

import draftwitness.dashboard.DashboardModel;
import draftwitness.dashboard.SequenceLine;
import draftwitness.dashboard.Words;
import javax.swing.JButton;
import javax.swing.JLabel;
import javax.swing.JPanel;
import net.miginfocom.swing.MigLayout;

/** Over the strips: where the furnace stands in its sequence, and the way to episodes. Event dispatch thread. */
final class SequenceBar extends JPanel {
    private final SequenceView sequence;
    private final JButton before;
    private final JButton after;
    private final JLabel count;

    SequenceBar(DashboardModel model, Look look) {
        super(new MigLayout("insets 4 24 4 12, fillx, gap 8", "[grow,fill][][][][]", "[center]"));
        setName("sequence-bar");
        sequence = new SequenceView(look);
        count = Bars.label("episodes", look.font(15));
        before = Bars.button("episode.before", look, () -> model.stepEpisode(false));
        after = Bars.button("episode.after", look, () -> model.stepEpisode(true));
        add(sequence, "wmin 0, grow");
        add(count, "gapright 2");
        add(before);
        add(after);
        add(Bars.button("findings", look, model.findings()::toggle));
    }

    void show(SequenceLine line, int episodes) {
        sequence.show(line);
        String key = episodes == 0 ? "episodes.none" : episodes == 1 ? "episodes.one" : "episodes.many";
        Bars.text(count, Words.get(key, String.valueOf(episodes)));
        before.setEnabled(episodes > 0);
        after.setEnabled(episodes > 0);
    }
}
