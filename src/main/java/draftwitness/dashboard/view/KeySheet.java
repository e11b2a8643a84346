package draftwitness.dashboard.view;

import draftwitness.dashboard.Words;
import java.awt.BorderLayout;
import java.awt.Frame;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import javax.swing.InputMap;
import javax.swing.JComponent;
import javax.swing.JDialog;
import javax.swing.JLabel;
import javax.swing.JPanel;
import javax.swing.JScrollPane;
import javax.swing.KeyStroke;
import net.miginfocom.swing.MigLayout;

/** The sheet of keys, made from the keys that are bound, so that it cannot tell of one that is not. EDT. */
final class KeySheet {
    private KeySheet() {}

    /** A key and what it does. */
    record Row(String key, String does) {}

    /** The keys bound in a map that have words; a second key for the same has none. */
    static List<Row> rows(InputMap map) {
        List<Row> rows = new ArrayList<>();
        KeyStroke[] strokes = map.allKeys();
        if (strokes != null) {
            for (KeyStroke stroke : strokes) {
                String name = String.valueOf(map.get(stroke));
                String words = "key." + name.replace(' ', '-');
                if (Words.has(words)) {
                    rows.add(new Row(said(name), Words.get(words)));
                }
            }
        }
        rows.sort((a, b) -> a.does().compareToIgnoreCase(b.does()));
        return rows;
    }

    /** The name of a key as it stands on keyboards. */
    static String said(String stroke) {
        String text = stroke.toLowerCase(Locale.ENGLISH)
                .replace("control ", "Ctrl + ")
                .replace("shift ", "Shift + ")
                .replace("alt ", "Alt + ")
                .replace("open_bracket", "[")
                .replace("close_bracket", "]")
                .replace("page_up", "Page up")
                .replace("page_down", "Page down");
        int last = text.lastIndexOf(' ') + 1;
        String key = text.substring(last);
        if (text.endsWith("Page up") || text.endsWith("Page down") || key.isEmpty()) {
            return text;
        }
        return text.substring(0, last) + key.substring(0, 1).toUpperCase(Locale.ENGLISH) + key.substring(1);
    }

    /** Shows the sheet over a window; escape or its button closes it. */
    static JDialog show(Frame owner, List<Row> rows, Look look) {
        JDialog sheet = new JDialog(owner, Words.get("keys.title"), false);
        sheet.setName("keys.sheet");
        JPanel table = new JPanel(new MigLayout("insets 20, gap 18 6, wrap 4", "[][grow,fill]24[][grow,fill]"));
        for (Row row : rows) {
            JLabel key = Bars.label("keys.key", look.bold(14));
            key.setText(row.key());
            JLabel does = Bars.label("keys.does", look.font(14));
            does.setText(row.does());
            table.add(key);
            table.add(does);
        }
        JPanel all = new JPanel(new BorderLayout());
        all.add(new JScrollPane(table), BorderLayout.CENTER);
        JPanel foot = new JPanel(new MigLayout("insets 8 20 12 20, fillx", "[grow][]"));
        JLabel strips = Bars.label("keys.strips", look.font(14));
        strips.setText("<html>" + Words.get("lanes.help") + "</html>");
        foot.add(strips, "growx, wmin 0");
        foot.add(Bars.button("keys.close", look, sheet::dispose));
        all.add(foot, BorderLayout.SOUTH);
        sheet.setContentPane(all);
        Bars.key(all, JComponent.WHEN_ANCESTOR_OF_FOCUSED_COMPONENT, "ESCAPE", sheet::dispose);
        sheet.pack();
        sheet.setSize(
                Math.min(owner.getWidth(), Math.max(look.px(900), sheet.getWidth())),
                Math.min(owner.getHeight(), sheet.getHeight() + look.px(30)));
        sheet.setLocationRelativeTo(owner);
        sheet.setVisible(true);
        return sheet;
    }
}
