package draftwitness.recording;

import draftwitness.reading.Channel;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Random;

/**
 * What windows of ten minutes at full rate cost anywhere in a file, all channels and one: {@code WindowTable FILE
 * [WINDOWS]}. By the clock and by the one thread's processor time; run it with {@code -Xmx128m} to see that browsing
 * needs no more.
 */
public final class WindowTable {
    private static final long WINDOW_NANOS = 600_000_000_000L;

    private WindowTable() {}

    public static void main(String[] arguments) throws Exception {
        int windows = arguments.length > 1 ? Integer.parseInt(arguments[1]) : 1000;
        try (RecordingFile file = RecordingFile.open(Path.of(arguments[0]))) {
            List<Channel> all = file.header().channels();
            for (int round = 0; round < 3; round++) {
                measure(file, all, windows, "all " + all.size() + " channels");
                measure(file, all.subList(0, 2), windows, "two channels");
                measure(file, all.subList(0, 1), windows, "one channel");
            }
        }
        System.out.println("heap limit " + Runtime.getRuntime().maxMemory() / (1 << 20) + " MB");
    }

    private static void measure(RecordingFile file, List<Channel> channels, int windows, String what) throws Exception {
        long room = file.lastNanos().orElseThrow() - WINDOW_NANOS;
        Random random = new Random(5);
        double[] clock = new double[windows];
        double[] cpu = new double[windows];
        long readings = 0;
        for (int i = 0; i < windows; i++) {
            long from = (long) (random.nextDouble() * room);
            long t = System.nanoTime();
            long c = Cpu.thread();
            for (Series series : file.read(channels, from, from + WINDOW_NANOS)) {
                readings += series.size();
            }
            cpu[i] = (Cpu.thread() - c) / 1e6;
            clock[i] = (System.nanoTime() - t) / 1e6;
        }
        print("10 minutes, " + what + ", by the clock", clock);
        print("10 minutes, " + what + ", processor", cpu);
        System.out.println("    readings a window: " + readings / windows);
    }

    private static void print(String what, double[] millis) {
        Arrays.sort(millis);
        System.out.println(String.format(
                Locale.ROOT,
                "  %-50s median %.2f ms, 10 %% %.2f ms, 90 %% %.2f ms",
                what,
                millis[millis.length / 2],
                millis[millis.length / 10],
                millis[millis.length * 9 / 10]));
    }
}
