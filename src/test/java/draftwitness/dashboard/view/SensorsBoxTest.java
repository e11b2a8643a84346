package draftwitness.dashboard.view;

import static org.assertj.core.api.Assertions.assertThat;

import draftwitness.dashboard.DashboardModel;
import draftwitness.dashboard.Settings;
import draftwitness.dashboard.Theme;
import draftwitness.testkit.Peers;
import java.awt.Font;
import java.awt.Window;
import java.time.ZoneOffset;
import java.util.List;
import javax.swing.JDialog;
import javax.swing.JFrame;
import javax.swing.JScrollPane;
import javax.swing.JTextArea;
import javax.swing.SwingUtilities;
import org.junit.jupiter.api.Test;

/** The box with the sensors' figures, in a real window. */
class SensorsBoxTest {

    @Test
    void givenTwoSensors_whenTheBoxIsOpened_thenBothAreTold() throws Exception {
        Peers.needDisplay();
        SwingUtilities.invokeAndWait(() -> {
            DashboardModel model = new DashboardModel(
                    ZoneOffset.UTC, Runnable::run, Runnable::run, Settings.defaults(), settings -> {});
            assertThat(model.sensors()).isEmpty();
            model.askSensors(() -> List.of("draft: 1200 readings; not taken: 3 x no number", "gas: battery 87 %"));
            JFrame over = new JFrame("sensors");
            over.setSize(900, 500);
            over.setVisible(true);
            SensorsBox.open(over.getContentPane(), model, new Look(Theme.LIGHT.palette(), Font.SANS_SERIF, 1));
            JDialog box = null;
            for (Window w : Window.getWindows()) {
                box = "sensors.box".equals(w.getName()) && w.isShowing() ? (JDialog) w : box;
            }
            assertThat(box).isNotNull();
            JScrollPane scroll = (JScrollPane) box.getContentPane();
            assertThat(((JTextArea) scroll.getViewport().getView()).getText())
                    .contains("3 x no number", "battery 87 %");
            for (Window w : Window.getWindows()) {
                w.dispose();
            }
        });
    }
}
