package draftwitness.app;

import draftwitness.capture.SourceHealth;
import draftwitness.driver.Fault;
import draftwitness.input.Durations;
import java.io.PrintStream;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;

/**
 * Tells in the terminal what was refused of each source and why, whenever that has grown, how full its battery is, and
 * all of its figures at the end. One owner thread.
 */
public final class HealthReporter {
    private static final int BATTERY_STEP = 10;
    private static final int LOW_BATTERY = 15;
    private static final long EVERY_NANOS = 10_000_000_000L;

    private final PrintStream out;
    private final Map<String, Map<Fault, Long>> told = new HashMap<>();
    private final Map<String, Integer> batteries = new HashMap<>();
    private long nextNanos;

    /**
     * Makes a reporter.
     *
     * @param out where the lines go
     */
    public HealthReporter(PrintStream out) {
        this.out = out;
    }

    /**
     * Looks at the figures; says something about each source at most every 10 s.
     *
     * @param nowNanos session time
     */
    public void look(long nowNanos, List<SourceHealth> health) {
        if (nowNanos < nextNanos) {
            return;
        }
        nextNanos = nowNanos + EVERY_NANOS;
        for (SourceHealth h : health) {
            Map<Fault, Long> before = told.getOrDefault(h.id(), Map.of());
            if (!h.faults().equals(before)) {
                out.println(Durations.clock(nowNanos) + "  " + h.id() + ": not taken: " + refused(h));
                told.put(h.id(), h.faults());
            }
            tellBattery(nowNanos, h);
        }
    }

    /** When it is first known, and each time that it has lost some. */
    private void tellBattery(long nowNanos, SourceHealth h) {
        if (h.batteryPercent().isEmpty()) {
            return;
        }
        int now = h.batteryPercent().getAsInt();
        int before = batteries.getOrDefault(h.id(), 1000);
        if (now <= before - BATTERY_STEP || now > before) {
            out.println(Durations.clock(nowNanos) + "  " + h.id() + ": battery " + now + " %"
                    + (now <= LOW_BATTERY ? ", nearly empty" : ""));
            batteries.put(h.id(), now);
        }
    }

    private static String refused(SourceHealth h) {
        List<String> parts = new ArrayList<>();
        h.faults().forEach((fault, times) -> parts.add(times + " x " + fault.words()));
        return String.join(", ", parts) + " (" + h.skippedBytes() + " bytes)";
    }

    /** All figures of a source in one line. */
    public static String line(SourceHealth h) {
        StringBuilder line = new StringBuilder();
        line.append(h.id()).append(": ").append(h.readings()).append(" readings of ");
        line.append(h.bytes()).append(" bytes");
        if (h.rejected() > 0) {
            line.append("; not taken: ").append(refused(h));
        }
        if (h.reconnects() > 0) {
            line.append("; opened again ").append(h.reconnects()).append(" times");
        }
        if (h.lateReadings() > 0) {
            line.append("; ").append(h.lateReadings()).append(" readings came late");
        }
        line.append("; times by ").append(h.times());
        h.waitNanos().ifPresent(n -> line.append("; decoded within ").append(millis(n)));
        h.answerNanos().ifPresent(n -> line.append("; answered after ").append(millis(n)));
        h.batteryPercent().ifPresent(p -> line.append("; battery ").append(p).append(" %"));
        return line.toString();
    }

    private static String millis(long nanos) {
        return String.format(Locale.ROOT, "%.1f ms", nanos / 1e6);
    }
}
