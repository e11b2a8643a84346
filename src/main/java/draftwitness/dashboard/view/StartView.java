package draftwitness.dashboard.view;

import draftwitness.dashboard.Desk;
import draftwitness.dashboard.FoundSource;
import draftwitness.dashboard.RecentRecording;
import draftwitness.dashboard.SetupField;
import draftwitness.dashboard.StartModel;
import draftwitness.dashboard.Words;
import java.awt.Component;
import java.util.List;
import javax.swing.JButton;
import javax.swing.JLabel;
import javax.swing.JPanel;
import net.miginfocom.swing.MigLayout;

/**
 * The start screen: demo, recordings; sensors in reach, the furnace to connect them on, the plate. Event dispatch
 * thread.
 */
final class StartView extends JPanel {
    private final transient StartModel model;
    private final transient Desk desk;
    private final transient Look look;
    private final JPanel sources = new JPanel(new MigLayout("insets 0, gap 6, fillx, wrap 1", "[grow,fill]"));
    private final JPanel recent = new JPanel(new MigLayout("insets 0, gap 6, fillx, wrap 1", "[grow,fill]"));
    private final SchematicView schematic;
    private final SetupForm plate;
    private final JLabel hint;
    private final JButton watch;
    private transient List<FoundSource> shownSources = List.of();
    private transient List<RecentRecording> shownRecent = List.of();
    private transient Object shownState = "";

    StartView(StartModel model, Desk desk, Look look, Runnable moreSettings) {
        super(new MigLayout("insets 2 24 8 24, gap 16 8, fill", "[300!][grow,fill][310!]", "[][][grow,fill][]"));
        this.model = model;
        this.desk = desk;
        this.look = look;
        setName("start");
        schematic = new SchematicView(model, look, this::refresh);
        plate = new SetupForm(
                model.setup(),
                List.of(
                        SetupField.TITLE,
                        SetupField.SET_POINT,
                        SetupField.DIFFERENTIAL,
                        SetupField.GAS_KIND,
                        SetupField.MANIFOLD),
                1,
                look,
                this::refresh);
        hint = Bars.label("start.hint", look.bold(17));
        watch = Bars.button("start.watch", look, model::watch);
        watch.setFont(look.bold(18));
        add(hint, "span 3, growx, wmin 0, wrap");
        add(heading("start.sensors", 15));
        add(heading("start.taps", 15));
        add(heading("start.plate", 15), "wrap");
        add(left(), "growy");
        add(schematic, "grow");
        add(right(moreSettings), "growy, wrap");
        add(caution(), "span 3, growx, wmin 0");
        refresh();
    }

    private JPanel left() {
        JPanel left = new JPanel(new MigLayout("insets 0, gap 6, fillx, wrap 1", "[grow,fill]"));
        left.add(sources, "wmin 0");
        left.add(heading("start.look", 15), "gaptop 14");
        left.add(Bars.button("start.demo", look, desk::demo), "hmin 48");
        left.add(Bars.button("start.open", look, desk::open), "hmin 48");
        left.add(heading("start.recent", 15), "gaptop 14");
        left.add(recent, "wmin 0");
        return left;
    }

    private JPanel right(Runnable moreSettings) {
        JPanel right = new JPanel(new MigLayout("insets 0, gap 8, fill, wrap 1", "[grow,fill]", "[][][grow][]"));
        right.add(plate);
        right.add(Bars.button("start.more", look, moreSettings), "hmin 48");
        right.add(new JLabel());
        right.add(watch, "hmin 64");
        return right;
    }

    private JLabel heading(String key, double size) {
        JLabel heading = Bars.label(key, look.bold(size));
        heading.setText(Words.get(key));
        return heading;
    }

    private JLabel caution() {
        JLabel caution = Bars.label("start.caution", look.font(12));
        caution.setText("<html>" + Words.get("start.caution") + "</html>");
        caution.setForeground(Look.color(look.palette().quietInk()));
        return caution;
    }

    /** Shows what is in reach and connected now; builds rows anew only when something changed. */
    void refresh() {
        model.refresh();
        Object state = List.of(model.sources(), model.connected(), String.valueOf(model.selected()));
        if (!state.equals(shownState)) {
            shownState = state;
            showSources();
            schematic.refresh();
        }
        if (!model.recent().equals(shownRecent) || recent.getComponentCount() == 0) {
            showRecent();
        }
        plate.refresh();
        Bars.text(hint, model.hint());
        hint.setToolTipText(model.hint());
        watch.setEnabled(model.canWatch());
    }

    private void showSources() {
        FoundSource inHand = model.selected();
        boolean sameRows = shownSources.size() == model.sources().size();
        shownSources = model.sources();
        String focused = sameRows ? nameOfFocused() : "";
        sources.removeAll();
        for (FoundSource source : shownSources) {
            SourceRow row =
                    new SourceRow(source, model.tapOf(source), inHand != null && inHand.isSame(source), look, () -> {
                        model.select(source);
                        refresh();
                    });
            sources.add(row, "hmin 58, wmin 0");
            if (row.getName().equals(focused)) {
                row.requestFocusInWindow();
            }
        }
        sources.revalidate();
        sources.repaint();
    }

    private String nameOfFocused() {
        for (Component row : sources.getComponents()) {
            if (row.isFocusOwner()) {
                return String.valueOf(row.getName());
            }
        }
        return "";
    }

    private void showRecent() {
        shownRecent = model.recent();
        recent.removeAll();
        for (RecentRecording each : shownRecent.subList(0, Math.min(4, shownRecent.size()))) {
            recent.add(new RecentRow(each, look, () -> desk.open(each.file())), "hmin 72, wmin 0");
        }
        if (shownRecent.isEmpty()) {
            JLabel none = Bars.label("start.recent.none", look.font(14));
            none.setText(Words.get("start.recent.none"));
            recent.add(none);
        }
        recent.revalidate();
        recent.repaint();
    }
}
