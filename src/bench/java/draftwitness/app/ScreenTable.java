package draftwitness.app;

import draftwitness.dashboard.ChartFrame;
import draftwitness.dashboard.DashboardModel;
import draftwitness.dashboard.Playhead;
import draftwitness.dashboard.Recording;
import draftwitness.dashboard.Settings;
import draftwitness.dashboard.SpanChoice;
import draftwitness.dashboard.Theme;
import draftwitness.dashboard.TimeSpan;
import draftwitness.dashboard.view.ChartPicture;
import draftwitness.recording.RecordingFile;
import draftwitness.time.Ticker;
import java.lang.management.ManagementFactory;
import java.nio.file.Path;
import java.time.ZoneOffset;
import java.util.Arrays;
import java.util.Random;

/**
 * What the screen costs on a recording: opening it, then zooms and pans anywhere in it, 1600 x 900, without a display.
 * {@code ScreenTable FILE [ZOOMS]}. Processor time of the one thread that works, so that other work on the machine
 * disturbs little; everything runs on it, the reading of the file too.
 */
public final class ScreenTable {
    private ScreenTable() {}

    public static void main(String[] arguments) throws Exception {
        Path path = Path.of(arguments[0]);
        int zooms = arguments.length > 1 ? Integer.parseInt(arguments[1]) : 200;
        try (RecordingFile file = RecordingFile.open(path)) {
            for (int round = 0; round < 4; round++) {
                long t = cpu();
                try (RecordingFile again = RecordingFile.open(path)) {
                    DashboardModel model = model(again, RecordingWindows.open(again));
                    model.frame(1440, 1440);
                    ChartFrame first = model.frame(1440, 1440);
                    System.out.printf("open to first frame, round %d: %.1f ms%n", round + 1, (cpu() - t) / 1e6);
                    if (first.lanes().isEmpty()) {
                        throw new IllegalStateException("nothing on the screen");
                    }
                }
            }
            RecordingWindows windows = RecordingWindows.open(file);
            zooms("from the file's overview", model(file, windows), zooms);
            long t = cpu();
            windows.load(share -> {}, () -> false);
            System.out.printf("read through: %.0f ms%n", (cpu() - t) / 1e6);
            zooms("after reading through", model(file, windows), zooms);
        }
    }

    private static DashboardModel model(RecordingFile file, RecordingWindows windows) {
        DashboardModel model = new DashboardModel(
                ZoneOffset.UTC,
                Runnable::run,
                Runnable::run,
                Settings.defaults().with(SpanChoice.ALL),
                s -> {});
        model.showRecording(new Recording(
                "bench", file.header(), windows, windows.sources(), new Playhead(Ticker.system(), windows.extent())));
        return model;
    }

    private static void zooms(String what, DashboardModel model, int zooms) {
        ChartPicture picture = new ChartPicture(Theme.LIGHT, 1);
        TimeSpan whole = model.frame(1440, 1440).extent();
        Random random = new Random(7);
        double[] frames = new double[zooms];
        double[] paints = new double[zooms];
        for (int i = -zooms; i < zooms; i++) { // the first half lets the code be compiled
            long length = (long) (whole.lengthNanos() * Math.pow(10, -4 * random.nextDouble()));
            long from = whole.fromNanos() + (long) ((whole.lengthNanos() - length) * random.nextDouble());
            model.showPart(new TimeSpan(from, from + length));
            long t = cpu();
            ChartFrame frame = model.frame(1440, 1440);
            long middle = cpu();
            picture.render("bench", frame, 1600, 900);
            if (i >= 0) {
                frames[i] = (middle - t) / 1e6;
                paints[i] = (cpu() - middle) / 1e6;
            }
        }
        print(what + ", readings", frames);
        print(what + ", painting", paints);
    }

    private static void print(String what, double[] millis) {
        double[] sorted = millis.clone();
        Arrays.sort(sorted);
        System.out.printf(
                "%s: median %.1f ms, 95 %% %.1f ms%n",
                what, sorted[sorted.length / 2], sorted[(int) (sorted.length * 0.95)]);
    }

    private static long cpu() {
        return ManagementFactory.getThreadMXBean().getCurrentThreadCpuTime();
    }
}
