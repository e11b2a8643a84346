package draftwitness.dashboard.view;

import draftwitness.dashboard.DashboardModel;
import draftwitness.dashboard.Findings;
import draftwitness.dashboard.TimeSpan;
import draftwitness.dashboard.Tone;
import draftwitness.dashboard.Words;
import java.awt.BorderLayout;
import java.awt.Dimension;
import java.awt.Font;
import java.awt.Rectangle;
import java.util.HashSet;
import java.util.Set;
import javax.swing.BorderFactory;
import javax.swing.JButton;
import javax.swing.JComponent;
import javax.swing.JLabel;
import javax.swing.JPanel;
import javax.swing.JScrollPane;
import javax.swing.JTextArea;
import javax.swing.ScrollPaneConstants;
import javax.swing.Scrollable;
import javax.swing.text.DefaultCaret;
import net.miginfocom.swing.MigLayout;
import org.jspecify.annotations.Nullable;

/**
 * The findings page: what was seen, what is likely wrong with why, what to check next with its answers, side by side.
 * Made anew when its findings change. Event dispatch thread.
 */
final class FindingsView extends JPanel {
    private final transient DashboardModel model;
    private final transient Look look;
    private final Column seen;
    private final Column causes;
    private final Column checks;
    private final JTextArea conclusion;
    private final JButton undo;
    private final transient Set<String> explained = new HashSet<>();
    private transient @Nullable Findings shown;

    FindingsView(DashboardModel model, Look look) {
        super(new BorderLayout());
        this.model = model;
        this.look = look;
        setName("findings-page");
        conclusion = text("findings.conclusion", look.bold(17), Tone.NORMAL);
        conclusion.getAccessibleContext().setAccessibleName(Words.get("findings.conclusion.name"));
        undo = Bars.button("findings.undo", look, model.findings()::undo);
        seen = new Column("findings.seen", look);
        causes = new Column("findings.causes", look);
        checks = new Column("findings.checks", look);
        JPanel head = new JPanel(new MigLayout("insets 6 24 6 12, fillx, gap 8, hidemode 3", "[grow,fill][][]"));
        head.add(conclusion, "wmin 0, growx");
        head.add(undo, "top");
        head.add(Bars.button("findings.back", look, model.findings()::toggle), "top, wrap");
        head.add(
                text("findings.caution", look.font(13), Tone.QUIET, Words.get("findings.caution")),
                "span, growx, wmin 0");
        JPanel columns = new JPanel(new MigLayout(
                "insets 0 14 6 12, fill, gap 8", "[grow,fill,sg c][grow,fill,sg c][grow,fill,sg c]", "[grow,fill]"));
        columns.add(seen.pane, "wmin 0, hmin 0");
        columns.add(causes.pane, "wmin 0, hmin 0");
        columns.add(checks.pane, "wmin 0, hmin 0");
        add(head, BorderLayout.NORTH);
        add(columns, BorderLayout.CENTER);
    }

    /** One of the three lists. */
    private static final class Column {
        private final JPanel rows;
        private final JPanel pane = new JPanel(new BorderLayout());

        Column(String key, Look look) {
            rows = new Rows();
            rows.setName(key);
            rows.setBackground(Look.color(look.palette().lane()));
            JTextArea title = text(key + ".title", look.bold(17), Tone.NORMAL, look, Words.get(key));
            title.setBorder(BorderFactory.createEmptyBorder(look.px(4), look.px(10), look.px(6), 0));
            JScrollPane scroll = new JScrollPane(rows);
            scroll.setBorder(BorderFactory.createEmptyBorder());
            scroll.setHorizontalScrollBarPolicy(ScrollPaneConstants.HORIZONTAL_SCROLLBAR_NEVER);
            scroll.getVerticalScrollBar().setUnitIncrement(look.px(24));
            scroll.getAccessibleContext().setAccessibleName(Words.get(key));
            pane.add(title, BorderLayout.NORTH);
            pane.add(scroll, BorderLayout.CENTER);
        }
    }

    /** As wide as its column, and as high as its rows need at that width. */
    private static final class Rows extends JPanel implements Scrollable {
        Rows() {
            super(new MigLayout("insets 8 10 12 10, fillx, gapy 4, hidemode 3", "[grow,fill]", "[top]"));
        }

        @Override
        public Dimension getPreferredScrollableViewportSize() {
            return new Dimension(100, 100);
        }

        @Override
        public int getScrollableUnitIncrement(Rectangle visible, int orientation, int direction) {
            return 24;
        }

        @Override
        public int getScrollableBlockIncrement(Rectangle visible, int orientation, int direction) {
            return visible.height;
        }

        @Override
        public boolean getScrollableTracksViewportWidth() {
            return true;
        }

        @Override
        public boolean getScrollableTracksViewportHeight() {
            return false;
        }
    }

    void show(Findings findings) {
        if (findings.equals(shown)) {
            return;
        }
        shown = findings;
        String said = findings.conclusion().isEmpty() ? Words.get("findings.working") : findings.conclusion();
        conclusion.setText(said);
        undo.setVisible(!findings.undo().isEmpty());
        undo.setToolTipText(findings.undo());
        fillSeen(findings);
        fillCauses(findings);
        fillChecks(findings);
        revalidate();
        repaint();
    }

    private void fillSeen(Findings findings) {
        JPanel rows = seen.rows;
        rows.removeAll();
        if (findings.seen().isEmpty()) {
            rows.add(text("seen.none", look.font(15), Tone.QUIET, Words.get("findings.nothing")), "wmin 0, wrap");
        }
        int i = 0;
        for (Findings.Seen each : findings.seen()) {
            String name = "seen." + i++;
            rows.add(titled(name, each.title(), each.tone()), "wmin 0, gaptop 6, wrap");
            rows.add(text(name + ".text", look.font(15), Tone.NORMAL, each.text()), "wmin 0, wrap");
            go(rows, name, each.where());
        }
    }

    private void go(JPanel rows, String name, @Nullable TimeSpan where) {
        if (where != null) {
            JButton go = Bars.button("findings.go", look, () -> model.showReadings(where));
            go.setName(name + ".go");
            rows.add(go, "growx 0, left, wrap");
        }
    }

    private JComponent titled(String name, String title, Tone tone) {
        JLabel label = new JLabel(title);
        label.setName(name);
        label.setFont(look.bold(16));
        label.setForeground(look.ink(tone == Tone.QUIET ? Tone.NORMAL : tone));
        label.setIconTextGap(look.px(6));
        if (tone == Tone.DANGER || tone == Tone.ATTENTION) {
            label.setIcon(new ShapeIcon(
                    tone == Tone.DANGER ? ShapeIcon.Shape.DANGER : ShapeIcon.Shape.ATTENTION,
                    look.px(16),
                    look.ink(tone).getRGB() & 0xFFFFFF));
        }
        return label;
    }

    private void fillCauses(Findings findings) {
        JPanel rows = causes.rows;
        rows.removeAll();
        for (Findings.Cause c : findings.causes()) {
            String name = "cause." + c.id();
            rows.add(titled(name, c.name(), Tone.NORMAL), "wmin 0, gaptop 6, wrap");
            rows.add(new ShareBar(c.probability(), look), "wrap");
            rows.add(text(name + ".share", look.font(15), Tone.NORMAL, c.share()), "wmin 0, wrap");
            JButton why = Bars.button("findings.why", look, () -> explain(c.id()));
            why.setName(name + ".why");
            why.getAccessibleContext().setAccessibleName(Words.get("findings.why") + ": " + c.name());
            rows.add(why, "growx 0, left, wrap");
            if (explained.contains(c.id())) {
                whys(rows, name, c);
            }
        }
    }

    private void explain(String cause) {
        if (!explained.remove(cause)) {
            explained.add(cause);
        }
        Findings now = shown;
        if (now != null) {
            fillCauses(now);
            causes.rows.revalidate();
            causes.rows.repaint();
        }
    }

    private void whys(JPanel rows, String name, Findings.Cause c) {
        rows.add(text(name + ".meaning", look.font(15), Tone.QUIET, c.meaning()), "wmin 0, wrap");
        int i = 0;
        for (Findings.Why w : c.why()) {
            String key = name + ".why." + i++;
            String sign = w.speaks() ? "+ " : "\u2212 ";
            rows.add(
                    text(key, look.bold(15), Tone.NORMAL, sign + w.seen() + ": " + w.weight()),
                    "wmin 0, gaptop 4, wrap");
            rows.add(text(key + ".reason", look.font(14), Tone.QUIET, w.reason()), "wmin 0, gapleft 14, wrap");
            go(rows, key, w.where());
        }
        if (!c.change().isEmpty()) {
            rows.add(text(name + ".change", look.font(15), Tone.NORMAL, c.change()), "wmin 0, gaptop 4, wrap");
        }
    }

    private void fillChecks(Findings findings) {
        JPanel rows = checks.rows;
        rows.removeAll();
        for (String answered : findings.answers()) {
            rows.add(text("answered", look.bold(14), Tone.NORMAL, "\u2713 " + answered), "wmin 0, wrap");
        }
        if (findings.checks().isEmpty() && !findings.conclusion().isEmpty()) {
            rows.add(text("check.none", look.font(15), Tone.QUIET, Words.get("findings.no-checks")), "wmin 0, wrap");
        }
        for (Findings.Check c : findings.checks()) {
            String name = "check." + c.id();
            rows.add(titled(name, c.title(), Tone.NORMAL), "wmin 0, gaptop 8, wrap");
            rows.add(text(name + ".effort", look.font(14), Tone.QUIET, c.effort()), "wmin 0, wrap");
            rows.add(text(name + ".text", look.font(15), Tone.NORMAL, c.text()), "wmin 0, wrap");
            if (!c.cautions().isEmpty()) {
                String mind = Words.get("check.mind", c.cautions());
                rows.add(text(name + ".mind", look.bold(14), Tone.ATTENTION, mind), "wmin 0, wrap");
            }
            for (Findings.Outcome o : c.outcomes()) {
                rows.add(outcome(c, o), "wmin 0, wrap");
            }
        }
    }

    private JButton outcome(Findings.Check check, Findings.Outcome outcome) {
        JButton button = new WrapButton(outcome.text(), look);
        button.setName("answer." + check.id() + "." + outcome.id());
        button.setFont(look.font(14));
        button.getAccessibleContext().setAccessibleName(check.title() + ": " + outcome.text());
        button.addActionListener(e -> model.findings().answer(check.id(), outcome.id()));
        return button;
    }

    private JTextArea text(String name, Font font, Tone tone) {
        return text(name, font, tone, look, "");
    }

    private JTextArea text(String name, Font font, Tone tone, String words) {
        return text(name, font, tone, look, words);
    }

    private static JTextArea text(String name, Font font, Tone tone, Look look, String words) {
        JTextArea area = new JTextArea();
        DefaultCaret still = new DefaultCaret();
        still.setUpdatePolicy(DefaultCaret.NEVER_UPDATE); // else every text scrolls its column to itself
        area.setCaret(still);
        area.setText(words);
        area.setName(name);
        area.setEditable(false);
        area.setFocusable(false);
        area.setOpaque(false);
        area.setLineWrap(true);
        area.setWrapStyleWord(true);
        area.setFont(font);
        area.setForeground(look.ink(tone));
        area.setBorder(BorderFactory.createEmptyBorder());
        area.getAccessibleContext().setAccessibleName(words);
        return area;
    }
}
