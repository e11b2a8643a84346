package draftwitness.dashboard.view;

import draftwitness.dashboard.DashboardModel;
import draftwitness.dashboard.SetupEditor;
import draftwitness.dashboard.SetupField;
import draftwitness.dashboard.Words;
import draftwitness.input.InputException;
import java.util.List;
import javax.swing.JButton;
import javax.swing.JComboBox;
import javax.swing.JComponent;
import javax.swing.JLabel;
import javax.swing.JPanel;
import javax.swing.JTextField;
import net.miginfocom.swing.MigLayout;

/** All settings of an appliance, with setups to open, copy and save, and undo. Event dispatch thread. */
final class SetupView extends JPanel {
    private static final List<List<SetupField>> PARTS = List.of(
            List.of(
                    SetupField.TITLE,
                    SetupField.SET_POINT,
                    SetupField.DIFFERENTIAL,
                    SetupField.TOLERANCE,
                    SetupField.PORTS,
                    SetupField.REFERENCE,
                    SetupField.STAGES),
            List.of(
                    SetupField.GAS_KIND,
                    SetupField.MANIFOLD,
                    SetupField.LOW_FIRE_MANIFOLD,
                    SetupField.INLET_MIN,
                    SetupField.INLET_MAX,
                    SetupField.EXTERNAL_STATIC_MAX),
            List.of(
                    SetupField.PRE_PURGE,
                    SetupField.IGNITER_WARM_UP,
                    SetupField.TRIAL,
                    SetupField.PROVING_LIMIT,
                    SetupField.ATTEMPTS,
                    SetupField.POST_PURGE,
                    SetupField.RETRY_MAX));

    private final transient SetupEditor editor;
    private final transient DashboardModel model;
    private final JComboBox<String> which = new JComboBox<>();
    private final JTextField name = new JTextField(14);
    private final transient List<SetupForm> forms;
    private final JButton undo;
    private final JButton redo;
    private final JLabel state;
    private boolean showing;

    SetupView(SetupEditor editor, DashboardModel model, Look look, Runnable back) {
        super(new MigLayout("insets 8 24 10 24, gap 12, fill", "[grow,fill]", "[][grow,top][]"));
        this.editor = editor;
        this.model = model;
        setName("editor");
        Bars.name(which, "editor.which");
        Bars.name(name, "editor.as");
        which.setFont(look.font(15));
        name.setFont(look.font(15));
        undo = Bars.button("editor.undo", look, () -> then(editor::undo));
        redo = Bars.button("editor.redo", look, () -> then(editor::redo));
        state = Bars.label("editor.state", look.font(14));
        forms = PARTS.stream()
                .map(part -> new SetupForm(editor, part, 1, look, this::showState))
                .toList();
        which.addActionListener(e -> open());
        JPanel tools = new JPanel(new MigLayout("insets 0, gap 8, fillx", "[][][][][][grow][][][][]"));
        tools.add(caption("editor.open.label", look));
        tools.add(which, "hmin 44, wmin 180");
        tools.add(Bars.button("editor.new", look, () -> then(editor::begin)));
        tools.add(undo);
        tools.add(redo);
        tools.add(state, "growx");
        tools.add(caption("editor.as.label", look));
        tools.add(name, "hmin 44");
        tools.add(Bars.button("editor.save", look, this::save));
        tools.add(Bars.button("editor.back", look, back));
        add(tools, "wrap");
        JPanel columns = new JPanel(
                new MigLayout("insets 0, gap 32 10, fillx, wrap 3", "[grow,fill,sg][grow,fill,sg][grow,fill,sg]"));
        for (String part : List.of("switch", "gas", "sequence")) {
            JLabel heading = Bars.label("editor.part." + part, look.bold(16));
            heading.setText(Words.get("editor.part." + part));
            columns.add(heading);
        }
        forms.forEach(form -> columns.add(form, "top"));
        add(columns, "wrap");
        key("control Z", () -> then(editor::undo));
        key("control Y", () -> then(editor::redo));
        key("control S", this::save);
    }

    private static JLabel caption(String key, Look look) {
        JLabel caption = Bars.label(key, look.font(14));
        caption.setText(Words.get(key));
        return caption;
    }

    private void key(String stroke, Runnable action) {
        Bars.key(this, JComponent.WHEN_ANCESTOR_OF_FOCUSED_COMPONENT, stroke, action);
    }

    private void then(Runnable change) {
        change.run();
        refresh();
    }

    private void open() {
        Object chosen = which.getSelectedItem();
        if (showing || chosen == null || chosen.toString().isEmpty()) {
            return;
        }
        try {
            editor.open(chosen.toString());
        } catch (InputException e) {
            model.fail(String.valueOf(e.getMessage()));
        }
        refresh();
    }

    private void save() {
        try {
            editor.save(name.getText());
        } catch (InputException e) {
            model.fail(String.valueOf(e.getMessage()));
        }
        refresh();
    }

    /** Shows what the editor holds now. */
    void refresh() {
        showing = true;
        which.removeAllItems();
        which.addItem("");
        editor.names().forEach(which::addItem);
        which.setSelectedItem(editor.name());
        if (!editor.name().isEmpty()) {
            name.setText(editor.name());
        }
        showing = false;
        forms.forEach(SetupForm::refresh);
        showState();
    }

    private void showState() {
        undo.setEnabled(editor.canUndo());
        redo.setEnabled(editor.canRedo());
        Bars.text(state, Words.get(editor.isChanged() ? "editor.changed" : "editor.unchanged"));
    }
}
