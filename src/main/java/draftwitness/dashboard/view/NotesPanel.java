package draftwitness.dashboard.view;

import draftwitness.dashboard.ChartFrame;
import draftwitness.dashboard.DashboardModel;
import draftwitness.dashboard.NoteMark;
import draftwitness.dashboard.NotesModel;
import draftwitness.dashboard.Words;
import java.awt.Component;
import java.awt.Dimension;
import java.util.Collections;
import java.util.List;
import java.util.Objects;
import javax.swing.BorderFactory;
import javax.swing.DefaultListCellRenderer;
import javax.swing.DefaultListModel;
import javax.swing.JButton;
import javax.swing.JComponent;
import javax.swing.JLabel;
import javax.swing.JList;
import javax.swing.JPanel;
import javax.swing.JScrollPane;
import javax.swing.JTextField;
import javax.swing.ListSelectionModel;
import javax.swing.event.DocumentEvent;
import javax.swing.event.DocumentListener;
import net.miginfocom.swing.MigLayout;
import org.jspecify.annotations.Nullable;

/** Notes beside the strips: a line to type, the list, and what can be done with the one chosen. EDT. */
final class NotesPanel extends JPanel {
    private final transient DashboardModel model;
    private final transient NotesModel notes;
    private final JTextField text = new JTextField();
    private final JButton add;
    private final JButton change;
    private final JButton remove;
    private final JButton undo;
    private final DefaultListModel<NoteMark> rows = new DefaultListModel<>();
    private final JList<NoteMark> list = new JList<>(rows);
    private transient @Nullable ChartFrame frame;
    private boolean showing;

    NotesPanel(DashboardModel model, Look look) {
        super(new MigLayout(
                "insets 6 4 6 16, gap 6, fill, wrap 2", "[grow,fill,sg][grow,fill,sg]", "[][][][grow,fill][][]"));
        this.model = model;
        this.notes = model.notes();
        setName("notes");
        setPreferredSize(new Dimension(look.px(280), look.px(200)));
        JLabel heading = Bars.label("notes.heading", look.bold(16));
        heading.setText(Words.get("notes.heading"));
        heading.setLabelFor(list);
        add = Bars.button("notes.add", look, this::add);
        change = Bars.button("notes.change", look, notes::change);
        remove = Bars.button("notes.remove", look, notes::remove);
        undo = Bars.button("notes.undo", look, notes::undo);
        dressText(look);
        dressList(look);
        add(heading, "span 2");
        add(text, "span 2, hmin " + look.px(Bars.TOUCH) + ", wmin 0");
        add(add, "span 2");
        JScrollPane scroll = new JScrollPane(list);
        scroll.setBorder(BorderFactory.createEmptyBorder());
        add(scroll, "span 2, wmin 0, hmin " + look.px(60));
        add(change, "wmin 0");
        add(remove, "wmin 0");
        add(undo, "span 2");
    }

    private void dressText(Look look) {
        Bars.name(text, "notes.text");
        text.setFont(look.font(15));
        text.addActionListener(e -> add());
        text.getDocument().addDocumentListener(new DocumentListener() {
            @Override
            public void insertUpdate(DocumentEvent e) {
                typed();
            }

            @Override
            public void removeUpdate(DocumentEvent e) {
                typed();
            }

            @Override
            public void changedUpdate(DocumentEvent e) {
                typed();
            }
        });
    }

    private void typed() {
        if (!showing) {
            notes.type(text.getText());
        }
    }

    private void dressList(Look look) {
        Bars.name(list, "notes.list");
        list.setFont(look.font(15));
        list.setSelectionMode(ListSelectionModel.SINGLE_SELECTION);
        list.setFixedCellHeight(look.px(Bars.TOUCH));
        list.setCellRenderer(new DefaultListCellRenderer() {
            @Override
            public Component getListCellRendererComponent(
                    JList<?> in, Object value, int index, boolean selected, boolean focused) {
                NoteMark note = (NoteMark) value;
                ChartFrame f = frame;
                String time = f == null ? "" : notes.time(note, f) + "  ";
                return super.getListCellRendererComponent(in, time + note.text(), index, selected, focused);
            }
        });
        list.addListSelectionListener(e -> {
            NoteMark note = list.getSelectedValue();
            if (!showing && !e.getValueIsAdjusting() && note != null) {
                notes.choose(note);
                model.goTo(note.fromNanos());
            }
        });
        Bars.key(list, JComponent.WHEN_FOCUSED, "DELETE", notes::remove);
    }

    private void add() {
        notes.add(model.momentNanos());
    }

    /** Puts the keyboard into the line for a new note. */
    void begin() {
        text.requestFocusInWindow();
    }

    /** Shows the notes as they are now. */
    void show(ChartFrame newFrame) {
        if (isVisible() != notes.isOpen()) {
            setVisible(notes.isOpen());
            if (notes.isOpen()) {
                begin();
            }
        }
        if (!notes.isOpen()) {
            return;
        }
        frame = newFrame;
        showing = true;
        List<NoteMark> now = notes.notes();
        if (!Collections.list(rows.elements()).equals(now)) {
            rows.clear();
            now.forEach(rows::addElement);
        }
        NoteMark chosen = notes.chosen();
        if (!Objects.equals(chosen, list.getSelectedValue())) {
            list.setSelectedValue(chosen, true);
            if (chosen == null) {
                list.clearSelection();
            }
        }
        if (!text.getText().equals(notes.typed())) {
            text.setText(notes.typed());
        }
        boolean typed = !notes.typed().isBlank();
        add.setEnabled(typed);
        change.setEnabled(typed && chosen != null);
        remove.setEnabled(chosen != null);
        undo.setEnabled(notes.canUndo());
        showing = false;
    }
}
