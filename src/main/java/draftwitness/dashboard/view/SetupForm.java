package draftwitness.dashboard.view;

import com.formdev.flatlaf.FlatClientProperties;
import draftwitness.dashboard.SetupEditor;
import draftwitness.dashboard.SetupField;
import java.awt.Component;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import javax.swing.DefaultListCellRenderer;
import javax.swing.JComboBox;
import javax.swing.JComponent;
import javax.swing.JLabel;
import javax.swing.JList;
import javax.swing.JPanel;
import javax.swing.JTextField;
import javax.swing.event.DocumentEvent;
import javax.swing.event.DocumentListener;
import net.miginfocom.swing.MigLayout;

/** Lines of a setup to fill in; wrong ones are outlined and say why. Event dispatch thread. */
final class SetupForm extends JPanel {
    private final transient SetupEditor editor;
    private final transient Runnable changed;
    private final transient Map<SetupField, JComponent> inputs = new EnumMap<>(SetupField.class);
    private boolean showing;

    /**
     * A form of some lines.
     *
     * @param columns pairs of label and input side by side
     * @param changed called after something was typed
     */
    SetupForm(SetupEditor editor, List<SetupField> fields, int columns, Look look, Runnable changed) {
        super(new MigLayout("insets 0, gap 8 6, fillx, wrap " + 2 * columns, "[][grow,fill]".repeat(columns)));
        this.editor = editor;
        this.changed = changed;
        setOpaque(false);
        for (SetupField field : fields) {
            JComponent input = field.kind().choices().isEmpty() ? typed(field) : chosen(field);
            input.setName("setup." + field.key());
            input.getAccessibleContext().setAccessibleName(field.label());
            input.getAccessibleContext().setAccessibleDescription(field.hint());
            input.setFont(look.font(15));
            JLabel label = new JLabel(field.label());
            label.setFont(look.font(14));
            label.setLabelFor(input);
            add(label);
            add(input, "hmin " + Bars.TOUCH * 0.85 + ", wmin 110");
            inputs.put(field, input);
        }
        refresh();
    }

    private JComponent typed(SetupField field) {
        JTextField input = new JTextField(8);
        input.putClientProperty(FlatClientProperties.PLACEHOLDER_TEXT, field.hint());
        input.getDocument().addDocumentListener(new DocumentListener() {
            @Override
            public void insertUpdate(DocumentEvent e) {
                type(field, input.getText());
            }

            @Override
            public void removeUpdate(DocumentEvent e) {
                type(field, input.getText());
            }

            @Override
            public void changedUpdate(DocumentEvent e) {
                type(field, input.getText());
            }
        });
        return input;
    }

    private JComponent chosen(SetupField field) {
        JComboBox<String> input = new JComboBox<>(field.kind().choices().toArray(new String[0]));
        input.setRenderer(new DefaultListCellRenderer() {
            @Override
            public Component getListCellRendererComponent(
                    JList<?> list, Object value, int index, boolean selected, boolean focused) {
                Object shown = "".equals(value) ? field.hint() : value;
                return super.getListCellRendererComponent(list, shown, index, selected, focused);
            }
        });
        input.addActionListener(e -> type(field, String.valueOf(input.getSelectedItem())));
        return input;
    }

    private void type(SetupField field, String text) {
        if (!showing) {
            editor.type(field, text);
            check(field);
            changed.run();
        }
    }

    /** Shows what the draft says now. */
    void refresh() {
        showing = true;
        inputs.forEach((field, input) -> {
            String text = editor.draft().text(field);
            if (input instanceof JTextField typed && !typed.getText().strip().equals(text)) {
                typed.setText(text);
            } else if (input instanceof JComboBox<?> box && !text.equals(box.getSelectedItem())) {
                box.setSelectedItem(text);
            }
            check(field);
        });
        showing = false;
    }

    private void check(SetupField field) {
        JComponent input = inputs.get(field);
        if (input != null) {
            String problem = editor.draft().problem(field);
            input.putClientProperty(
                    FlatClientProperties.OUTLINE, problem == null ? null : FlatClientProperties.OUTLINE_ERROR);
            input.setToolTipText(problem == null ? field.hint() : problem);
        }
    }
}
