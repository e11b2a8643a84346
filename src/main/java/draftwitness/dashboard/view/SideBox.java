package draftwitness.dashboard.view;

import draftwitness.dashboard.Words;
import java.awt.Component;
import java.awt.Dialog;
import java.awt.Window;
import java.awt.event.WindowAdapter;
import java.awt.event.WindowEvent;
import javax.swing.JComponent;
import javax.swing.JDialog;
import javax.swing.SwingUtilities;
import javax.swing.Timer;

/**
 * A box beside the strips that is kept up to date until it is closed, by its frame or by Escape; the strips can be
 * watched meanwhile. Event dispatch thread.
 */
final class SideBox {
    private SideBox() {}

    /**
     * Opens a box over a window.
     *
     * @param key its title is the word of this key, its name is {@code KEY.box}
     * @param content what is in it
     * @param everyMillis how often it is brought up to date
     * @param refresh brings it up to date
     */
    static void open(Component over, String key, JComponent content, int everyMillis, Runnable refresh) {
        Window owner = SwingUtilities.getWindowAncestor(over);
        JDialog dialog = new JDialog(owner, Words.get(key + ".title"), Dialog.ModalityType.MODELESS);
        dialog.setName(key + ".box");
        dialog.setDefaultCloseOperation(JDialog.DISPOSE_ON_CLOSE);
        dialog.setContentPane(content);
        Bars.key(dialog.getRootPane(), JComponent.WHEN_ANCESTOR_OF_FOCUSED_COMPONENT, "ESCAPE", dialog::dispose);
        Timer timer = new Timer(everyMillis, e -> refresh.run());
        timer.start();
        dialog.addWindowListener(new WindowAdapter() {
            @Override
            public void windowClosed(WindowEvent e) {
                timer.stop();
            }
        });
        dialog.pack();
        dialog.setLocationRelativeTo(owner);
        dialog.setVisible(true);
    }
}
