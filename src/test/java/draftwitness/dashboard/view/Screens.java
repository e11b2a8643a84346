package draftwitness.dashboard.view;

import draftwitness.dashboard.ChartFrame;
import draftwitness.dashboard.DashboardModel;
import draftwitness.dashboard.FakeRecord;
import draftwitness.dashboard.FurnaceFeed;
import draftwitness.dashboard.Questions;
import draftwitness.dashboard.SessionChooser;
import draftwitness.dashboard.Settings;
import draftwitness.dashboard.Theme;
import java.awt.image.BufferedImage;
import java.nio.file.Path;
import java.time.ZoneOffset;
import java.util.Optional;
import javax.imageio.ImageIO;
import javax.swing.SwingUtilities;

final class Screens {
    private Screens() {}

    public static void main(String[] args) throws Exception {
        for (Theme theme : Theme.values()) {
            DashboardModel model = new DashboardModel(
                    ZoneOffset.UTC,
                    Runnable::run,
                    Runnable::run,
                    Settings.defaults().with(theme),
                    s -> {});
            model.showLive("Demo", FurnaceFeed.usual().played(1600), new FakeRecord());
            ChartPicture picture = new ChartPicture(theme, 1);
            ChartFrame frame = model.frame(picture.stripColumns(1366), 800);
            picture.write("Back hall furnace", frame, 1366, 768, Path.of(args[0], "picture-" + theme + ".png"));
            SwingUtilities.invokeAndWait(() -> {
                DashboardWindow w = DashboardWindow.open(
                        model,
                        new SessionChooser() {
                            @Override
                            public void startDemo() {}

                            @Override
                            public void openRecording(Path file) {}

                            @Override
                            public void closed() {}
                        },
                        new Questions() {
                            @Override
                            public Optional<Path> recordingToOpen() {
                                return Optional.empty();
                            }

                            @Override
                            public boolean finishRecording() {
                                return true;
                            }
                        });
                w.window().setSize(1366, 768);
                w.window().validate();
                w.refresh();
                w.window().validate();
                w.refresh();
                BufferedImage i = new BufferedImage(1366, 768, BufferedImage.TYPE_INT_RGB);
                w.window().getContentPane().printAll(i.createGraphics());
                try {
                    ImageIO.write(
                            i,
                            "png",
                            Path.of(args[0], "window-" + theme + ".png").toFile());
                } catch (java.io.IOException e) {
                    throw new java.io.UncheckedIOException(e);
                }
                w.close();
            });
        }
    }
}
