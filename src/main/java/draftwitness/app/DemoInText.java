package draftwitness.app;

import draftwitness.capture.CaptureSession;
import draftwitness.dashboard.ChartFrame;
import draftwitness.dashboard.DashboardModel;
import draftwitness.dashboard.RecordControl;
import draftwitness.dashboard.SessionModel;
import draftwitness.dashboard.Settings;
import draftwitness.dashboard.SpanChoice;
import draftwitness.dashboard.Theme;
import draftwitness.dashboard.view.ChartPicture;
import draftwitness.furnace.Scenario;
import draftwitness.input.InputException;
import draftwitness.link.LinkException;
import draftwitness.setup.Setup;
import java.io.IOException;
import java.io.PrintStream;
import java.nio.file.Path;
import java.time.ZoneId;
import java.util.List;
import java.util.concurrent.TimeUnit;

/**
 * The demo house where there is no screen: told in lines of text, faster than it happens, with a picture of its chart
 * at the end.
 */
public final class DemoInText {
    private static final double SPEED = 60;
    private static final long LINE_NANOS = 10_000_000_000L;
    private static final int WIDTH = 1600;
    private static final int HEIGHT = 1000;

    private DemoInText() {}

    /**
     * Runs the demo once.
     *
     * @param picture where the chart goes; replaced if it exists
     * @throws IOException if the picture cannot be written
     */
    public static void run(PrintStream out, Path picture, StopSignal stop)
            throws InputException, LinkException, IOException, InterruptedException {
        Scenario demo = Sessions.demo();
        Setup setup = Sessions.setupOf(demo);
        SessionModel shown = new SessionModel();
        CaptureSession session = Sessions.live(
                Sessions.plans(demo.name(), 1, SPEED), setup, stop, List.of(new TextReporter(out, LINE_NANOS), shown));
        out.println("No display here, so this is the built-in demo house as text, " + (int) SPEED
                + " times as fast as it happens.");
        stop.attend();
        session.start();
        while (!session.awaitEnd(50, TimeUnit.MILLISECONDS)) {
            if (stop.await(0, TimeUnit.MILLISECONDS)) {
                break;
            }
        }
        session.stop();
        paint(demo.title(), shown, picture);
        out.println("The chart that a display would have shown: " + picture);
    }

    private static void paint(String title, SessionModel shown, Path picture) throws IOException {
        Settings settings = Settings.defaults().with(SpanChoice.ALL).with(Theme.LIGHT);
        DashboardModel model =
                new DashboardModel(ZoneId.systemDefault(), Runnable::run, Runnable::run, settings, s -> {});
        model.showLive(title, shown, new NoRecording());
        ChartPicture chart = new ChartPicture(settings.theme(), 1);
        int columns = chart.stripColumns(WIDTH);
        ChartFrame frame = model.frame(columns, columns);
        chart.write(title, frame, WIDTH, HEIGHT, picture);
    }

    /** Nothing can be recorded from a picture. */
    private static final class NoRecording implements RecordControl {
        @Override
        public Path suggestedFile() {
            throw new IllegalStateException("nothing to record");
        }

        @Override
        public void start(Path file) {
            throw new IllegalStateException("nothing to record");
        }

        @Override
        public void stop() {
            throw new IllegalStateException("nothing is being recorded");
        }

        @Override
        public Status status() {
            return Status.idle();
        }
    }
}
