package draftwitness.dashboard.view;

import draftwitness.dashboard.Words;
import java.awt.Dimension;
import java.awt.Font;
import java.awt.event.ActionEvent;
import javax.swing.AbstractAction;
import javax.swing.AbstractButton;
import javax.swing.JButton;
import javax.swing.JComponent;
import javax.swing.JLabel;
import javax.swing.JToggleButton;
import javax.swing.KeyStroke;

/** Makes the parts that the bars are built of: named, spoken, large enough for a gloved finger. */
final class Bars {
    /** Least height of what is pressed, in design pixels. */
    static final int TOUCH = 44;

    private Bars() {}

    /** A button; texts come from {@code KEY} and {@code KEY.help}. */
    static JButton button(String key, Look look, Runnable action) {
        JButton button = new JButton(Words.get(key));
        dress(button, key, look);
        button.addActionListener(e -> action.run());
        return button;
    }

    /** A button that stays down. */
    static JToggleButton toggle(String key, Look look, Runnable action) {
        JToggleButton button = new JToggleButton(Words.get(key));
        dress(button, key, look);
        button.addActionListener(e -> action.run());
        return button;
    }

    private static void dress(AbstractButton button, String key, Look look) {
        button.setFont(look.font(15));
        name(button, key);
        button.setFocusPainted(true);
        Dimension size = button.getPreferredSize();
        button.setMinimumSize(new Dimension(size.width, look.px(TOUCH)));
        button.setPreferredSize(new Dimension(Math.max(size.width, look.px(TOUCH)), look.px(TOUCH)));
    }

    /** Gives a component the name that tests find, and what screen readers say. */
    static void name(JComponent component, String key) {
        component.setName(key);
        component.getAccessibleContext().setAccessibleName(Words.get(Words.has(key + ".name") ? key + ".name" : key));
        if (Words.has(key + ".help")) {
            component.setToolTipText(Words.get(key + ".help"));
            component.getAccessibleContext().setAccessibleDescription(Words.get(key + ".help"));
        }
    }

    /**
     * Binds a key on a component.
     *
     * @param condition when it works: one of {@link JComponent}'s, such as {@link JComponent#WHEN_FOCUSED}
     * @param stroke as {@link KeyStroke#getKeyStroke(String)} reads it; also the action's name
     * @throws IllegalArgumentException if there is no such key
     */
    static void key(JComponent on, int condition, String stroke, Runnable action) {
        KeyStroke key = KeyStroke.getKeyStroke(stroke);
        if (key == null) {
            throw new IllegalArgumentException("no such key: " + stroke);
        }
        on.getInputMap(condition).put(key, stroke);
        on.getActionMap().put(stroke, new AbstractAction() {
            @Override
            public void actionPerformed(ActionEvent e) {
                action.run();
            }
        });
    }

    static JLabel label(String name, Font font) {
        JLabel label = new JLabel(" ");
        label.setName(name);
        label.setFont(font);
        return label;
    }

    /** Sets a text only when it is another one, so that nothing is painted or spoken anew for nothing. */
    static void text(JLabel label, String text) {
        String shown = text.isEmpty() ? " " : text;
        if (!shown.equals(label.getText())) {
            label.setText(shown);
        }
    }
}
