package draftwitness.dashboard.view;

import draftwitness.dashboard.CompareModel;
import draftwitness.dashboard.ComparedCycle;
import draftwitness.dashboard.Desk;
import draftwitness.dashboard.Words;
import draftwitness.reading.Unit;
import java.util.List;
import javax.swing.JComboBox;
import javax.swing.JLabel;
import javax.swing.JPanel;
import net.miginfocom.swing.MigLayout;

/** The stage on which two cycles are laid over each other: what is compared, the curves, the numbers. EDT. */
final class CompareView extends JPanel {
    private final transient CompareModel model;
    private final transient Look look;
    private final JComboBox<String> first = new JComboBox<>();
    private final JComboBox<String> second = new JComboBox<>();
    private final ComparePlot plot;
    private final JPanel table =
            new JPanel(new MigLayout("insets 0, gap 28 4, wrap 4", "[]28[right]28[right]28[right]"));
    private transient List<ComparedCycle> listed = List.of();
    private transient Object shown = "";
    private boolean showing;

    CompareView(CompareModel model, Desk desk, Look look) {
        super(new MigLayout("insets 4 24 8 24, gap 10, fill", "[grow,fill]", "[][grow,fill][]"));
        this.model = model;
        this.look = look;
        this.plot = new ComparePlot(model, look);
        setName("compare");
        JPanel top = new JPanel(new MigLayout("insets 0, gap 8, fillx", "[][grow,fill][][grow,fill][][][][]"));
        top.add(letter("A"));
        top.add(box(first, "compare.first", i -> model.chooseA(i)), "wmin 0, hmin " + look.px(Bars.TOUCH));
        top.add(letter("B"));
        top.add(box(second, "compare.second", i -> model.chooseB(i)), "wmin 0, hmin " + look.px(Bars.TOUCH));
        top.add(Bars.button("compare.earlier", look, () -> model.nudge(-1)));
        top.add(Bars.button("compare.later", look, () -> model.nudge(1)));
        top.add(Bars.button("compare.other", look, desk::compareWith));
        top.add(Bars.button("compare.back", look, model::close));
        add(top, "wrap");
        add(plot, "wrap");
        add(table);
    }

    private JLabel letter(String text) {
        JLabel label = Bars.label("compare." + text, look.bold(18));
        label.setText(text);
        label.setForeground(ComparePlot.color(look, text));
        return label;
    }

    private interface Chosen {
        void at(int place);
    }

    private JComboBox<String> box(JComboBox<String> box, String key, Chosen chosen) {
        Bars.name(box, key);
        box.setFont(look.font(15));
        box.addActionListener(e -> {
            if (!showing && box.getSelectedIndex() >= 0) {
                chosen.at(box.getSelectedIndex());
            }
        });
        return box;
    }

    /** Shows what the model holds, pressures in a unit. */
    void show(Unit unit) {
        Object now =
                List.of(model.cycles(), String.valueOf(model.a()), String.valueOf(model.b()), model.shiftNanos(), unit);
        if (now.equals(shown)) {
            return;
        }
        shown = now;
        showing = true;
        if (!model.cycles().equals(listed)) {
            listed = model.cycles();
            first.removeAllItems();
            second.removeAllItems();
            for (ComparedCycle each : listed) {
                first.addItem(each.label());
                second.addItem(each.label());
            }
        }
        first.setSelectedIndex(listed.indexOf(model.a()));
        second.setSelectedIndex(listed.indexOf(model.b()));
        showing = false;
        fill(unit);
        plot.show(unit);
    }

    private void fill(Unit unit) {
        table.removeAll();
        for (String key : List.of("compare.what", "compare.a", "compare.b", "compare.difference")) {
            cell(Words.get(key), true);
        }
        for (CompareModel.Row row : model.rows(unit)) {
            cell(row.what(), false);
            cell(row.a(), false);
            cell(row.b(), false);
            cell(row.difference(), true);
        }
        table.revalidate();
        table.repaint();
    }

    private void cell(String text, boolean bold) {
        JLabel cell = Bars.label("compare.cell", bold ? look.bold(16) : look.font(16));
        cell.setText(text);
        table.add(cell);
    }
}
