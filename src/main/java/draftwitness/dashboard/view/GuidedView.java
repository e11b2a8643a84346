package draftwitness.dashboard.view;

import draftwitness.dashboard.DashboardModel;
import draftwitness.dashboard.GuidedModel;
import draftwitness.dashboard.GuidedScreen;
import draftwitness.dashboard.Tone;
import draftwitness.dashboard.Words;
import java.awt.CardLayout;
import java.awt.Font;
import java.util.List;
import javax.swing.JButton;
import javax.swing.JComponent;
import javax.swing.JLabel;
import javax.swing.JPanel;
import javax.swing.JProgressBar;
import javax.swing.JTextArea;
import javax.swing.JTextField;
import javax.swing.JToggleButton;
import net.miginfocom.swing.MigLayout;
import org.jspecify.annotations.Nullable;

/**
 * The screen of guided measurements: a choice of what to measure, then one measurement with its steps, a picture of
 * where the hose goes, the newest reading, the verdict, and one big button. Event dispatch thread.
 */
final class GuidedView extends JPanel {
    private final transient DashboardModel dashboard;
    private final transient GuidedModel model;
    private final transient Look look;
    private final JPanel choices =
            new JPanel(new MigLayout("insets 8 24 12 24, gap 12, fillx, wrap 2", "[grow,fill,sg][grow,fill,sg]"));
    private final JPanel steps = new JPanel(new MigLayout("insets 0, gap 8"));
    private final JLabel heading;
    private final JTextArea instruction;
    private final JTextArea caution;
    private final GuidedPicture picture;
    private final GuidedTrace trace;
    private final JLabel figure;
    private final JLabel figureText;
    private final JProgressBar progress = new JProgressBar(0, 1000);
    private final JTextArea verdict;
    private final JPanel rows = new JPanel(new MigLayout("insets 0, gap 4 14, wrap 4", "[][grow][][grow]"));
    private final JTextArea remarks;
    private final JLabel kept;
    private final JPanel span = new JPanel(new MigLayout("insets 0, gap 8"));
    private final JTextField from = new JTextField(7);
    private final JTextField to = new JTextField(7);
    private final JButton go;
    private transient @Nullable GuidedScreen shown;

    GuidedView(DashboardModel dashboard, Look look) {
        super(new CardLayout());
        this.dashboard = dashboard;
        this.model = dashboard.guided();
        this.look = look;
        setName("guided.screen");
        getAccessibleContext().setAccessibleName(Words.get("guided.screen"));
        heading = Bars.label("guided.title", look.bold(19));
        instruction = text("guided.instruction", look.font(17));
        caution = text("guided.cautions", look.font(13));
        picture = new GuidedPicture(look);
        trace = new GuidedTrace(look);
        figure = Bars.label("guided.figure", look.bold(40));
        figureText = Bars.label("guided.figure-text", look.font(15));
        verdict = text("guided.verdict", look.bold(17));
        remarks = text("guided.remarks", look.font(13));
        kept = Bars.label("guided.kept-text", look.font(14));
        go = Bars.button("guided.go.button", look, model::go);
        go.setFont(look.bold(22));
        Bars.name(progress, "guided.progress");
        add(chooser(), "choose");
        add(measuring(), "measure");
        key("control ENTER", model::go);
        key("ESCAPE", model::back);
    }

    private JTextArea text(String name, Font font) {
        JTextArea area = new JTextArea();
        area.setName(name);
        area.getAccessibleContext().setAccessibleName(Words.get("guided.screen"));
        area.setEditable(false);
        area.setFocusable(false);
        area.setLineWrap(true);
        area.setWrapStyleWord(true);
        area.setOpaque(false);
        area.setBorder(null);
        area.setFont(font);
        return area;
    }

    private JPanel chooser() {
        JPanel all = new JPanel(new MigLayout("insets 8 0 0 0, fillx, wrap 1", "[grow,fill]", "[][grow,top]"));
        JPanel head = new JPanel(new MigLayout("insets 0 24 0 24, fillx", "[grow][]"));
        JLabel question = Bars.label("guided.question", look.bold(19));
        question.setText(Words.get("guided.choose"));
        head.add(question);
        head.add(back("guided.close"));
        all.add(head);
        all.add(choices);
        return all;
    }

    private JButton back(String name) {
        JButton back = Bars.button("guided.back", look, model::back);
        back.setName(name);
        return back;
    }

    private JPanel measuring() {
        JPanel all = new JPanel(
                new MigLayout("insets 6 24 10 24, gap 20 6, fill", "[40%!,fill][grow,fill]", "[][][grow,fill][]"));
        JPanel head = new JPanel(new MigLayout("insets 0, gap 16, fillx", "[][grow][]"));
        head.add(heading);
        head.add(steps);
        head.add(back("guided.back"));
        all.add(head, "span 2, growx, wrap");
        all.add(instruction, "span 2, growx, wmin 0, wrap");
        JPanel left = new JPanel(new MigLayout("insets 0, gap 6, fill, wrap 1", "[grow,fill]", "[grow,fill][]"));
        left.add(picture, "grow, hmin 120");
        left.add(caution, "growx, wmin 0");
        all.add(left, "grow");
        JPanel right = new JPanel(
                new MigLayout("insets 0, gap 5, fillx, wrap 1, hidemode 3", "[grow,fill]", "[][][][][][][][]"));
        JPanel reading = new JPanel(new MigLayout("insets 0, gap 16, fillx", "[][grow,fill]"));
        reading.add(figure);
        reading.add(figureText, "wmin 0");
        right.add(reading);
        right.add(trace, "growx");
        right.add(progress, "growx, h 12!");
        right.add(verdict, "growx, wmin 0, gaptop 6");
        right.add(rows, "growx, wmin 0");
        right.add(remarks, "growx, wmin 0");
        right.add(kept, "wmin 0");
        all.add(right, "grow, wmin 0, wrap");
        all.add(foot(), "span 2, growx");
        return all;
    }

    private JPanel foot() {
        for (JTextField field : List.of(from, to)) {
            field.setFont(look.font(17));
        }
        Bars.name(from, "guided.from");
        Bars.name(to, "guided.to");
        span.add(caption("guided.from"));
        span.add(from, "hmin " + look.px(Bars.TOUCH));
        span.add(caption("guided.to"));
        span.add(to, "hmin " + look.px(Bars.TOUCH));
        from.addActionListener(e -> typed());
        to.addActionListener(e -> typed());
        JPanel foot = new JPanel(new MigLayout("insets 0, gap 16, fillx, hidemode 3"));
        foot.add(span);
        foot.add(go, "growx, pushx, h " + look.px(64) + "!");
        return foot;
    }

    private JLabel caption(String key) {
        JLabel caption = Bars.label(key + ".caption", look.font(16));
        caption.setText(Words.get(key));
        return caption;
    }

    private void typed() {
        model.span(from.getText(), to.getText());
    }

    private void key(String stroke, Runnable action) {
        Bars.key(this, JComponent.WHEN_ANCESTOR_OF_FOCUSED_COMPONENT, stroke, action);
    }

    /** Shows how it stands now. */
    void refresh() {
        if (shown != null && shown.span() != null) {
            typed();
        }
        GuidedScreen next = model.screen(dashboard.settings().units());
        GuidedScreen before = shown;
        shown = next;
        if (next.equals(before)) {
            return;
        }
        ((CardLayout) getLayout()).show(this, next.kind() == null ? "choose" : "measure");
        if (next.kind() == null) {
            showChoices(before, next);
        } else {
            showMeasurement(before, next);
        }
    }

    private void showChoices(@Nullable GuidedScreen before, GuidedScreen next) {
        if (before != null && before.choices().equals(next.choices())) {
            return;
        }
        choices.removeAll();
        for (GuidedScreen.Choice choice : next.choices()) {
            JButton button = new TwoLines("<html><b>" + choice.title() + "</b><br>" + choice.text() + "</html>");
            button.setName("guided.choice." + choice.kind().id());
            button.getAccessibleContext().setAccessibleName(choice.title() + ". " + choice.text());
            button.setHorizontalAlignment(JButton.LEFT);
            button.setFont(look.font(16));
            button.setEnabled(choice.usable());
            button.addActionListener(e -> {
                model.choose(choice.kind());
                refresh();
                go.requestFocusInWindow();
            });
            choices.add(button, "hmin " + look.px(84) + ", wmin 0");
        }
        choices.revalidate();
        choices.repaint();
    }

    /** A button of two lines; it has no baseline, since none is defined before it has a size. */
    private static final class TwoLines extends JButton {
        TwoLines(String html) {
            super(html);
        }

        @Override
        public int getBaseline(int width, int height) {
            return -1;
        }
    }

    private void showMeasurement(@Nullable GuidedScreen before, GuidedScreen next) {
        Bars.text(heading, next.title());
        set(instruction, next.instruction());
        set(caution, Words.get("guided.caution") + ": " + String.join(" ", next.cautions()));
        caution.setForeground(look.ink(Tone.ATTENTION));
        picture.show(next.hoses());
        trace.show(next.trace(), next.traceUnit());
        Bars.text(figure, next.figure());
        Bars.text(figureText, next.figureText());
        progress.setIndeterminate(Double.isNaN(next.progress()));
        progress.setValue(Double.isNaN(next.progress()) ? 0 : (int) Math.round(1000 * next.progress()));
        set(verdict, next.verdict());
        verdict.setForeground(look.ink(next.verdictTone()));
        set(remarks, String.join(" ", next.remarks()));
        remarks.setForeground(Look.color(look.palette().quietInk()));
        Bars.text(kept, next.kept());
        if (!next.goText().equals(go.getText())) {
            go.setText(next.goText());
        }
        go.getAccessibleContext().setAccessibleName(next.goText());
        if (before == null || !before.steps().equals(next.steps()) || before.kind() != next.kind()) {
            showSteps(next);
        }
        if (before == null || !before.rows().equals(next.rows())) {
            showRows(next);
        }
        showSpan(before, next);
        revalidate();
    }

    private static void set(JTextArea area, String text) {
        if (!text.equals(area.getText())) {
            area.setText(text);
            area.getAccessibleContext().setAccessibleName(text);
        }
    }

    private void showSteps(GuidedScreen next) {
        steps.removeAll();
        for (GuidedScreen.Step each : next.steps()) {
            JToggleButton button =
                    new JToggleButton(each.taken() ? "\u2713 " + each.text() : each.text(), each.chosen());
            button.setName("guided.step." + each.id());
            button.getAccessibleContext()
                    .setAccessibleName(each.taken() ? Words.get("guided.done", each.text()) : each.text());
            button.setFont(look.font(15));
            button.addActionListener(e -> {
                model.step(each.id());
                shown = null;
                refresh();
            });
            steps.add(button, "hmin " + look.px(Bars.TOUCH));
        }
        steps.setVisible(next.steps().size() > 1);
        steps.revalidate();
        steps.repaint();
    }

    private void showRows(GuidedScreen next) {
        rows.removeAll();
        for (GuidedScreen.Row row : next.rows()) {
            JLabel label = new JLabel(row.label());
            label.setFont(look.font(14));
            label.setForeground(Look.color(look.palette().quietInk()));
            JLabel value = new JLabel(row.value());
            value.setFont(look.bold(16));
            rows.add(label);
            rows.add(value);
        }
        rows.revalidate();
        rows.repaint();
    }

    private void showSpan(@Nullable GuidedScreen before, GuidedScreen next) {
        GuidedScreen.SpanText text = next.span();
        span.setVisible(text != null);
        if (text != null && (before == null || before.kind() != next.kind())) {
            from.setText(text.from());
            to.setText(text.to());
        }
    }
}
