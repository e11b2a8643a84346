package draftwitness.furnace;

import java.lang.management.ManagementFactory;
import java.util.Locale;

/**
 * Times a night of 12 h with six channels at 50 Hz. Run by hand; the result stands in {@code docs/furnace-model.md}.
 * Arguments: the scenario, which must have six sensors at 50 Hz, and how often.
 */
final class NightBenchmark {
    private NightBenchmark() {}

    /** Runs and prints. */
    public static void main(String[] args) throws Exception {
        Scenario scenario = Scenarios.find(args[0]);
        for (int i = 0; i < Integer.parseInt(args[1]); i++) {
            long before = System.nanoTime();
            long cpuBefore = ManagementFactory.getThreadMXBean().getCurrentThreadCpuTime();
            long[] readings = {0};
            Simulation run = Simulation.start(scenario, i);
            run.advanceTo(12L * 3600 * 1_000_000_000L, (sensor, nanos, count) -> readings[0]++);
            double seconds = (System.nanoTime() - before) / 1e9;
            double cpu = (ManagementFactory.getThreadMXBean().getCurrentThreadCpuTime() - cpuBefore) / 1e9;
            System.out.printf(
                    Locale.ROOT,
                    "%d readings in %.2f s, %.2f s of processor time, %d cycles%n",
                    readings[0],
                    seconds,
                    cpu,
                    run.truthCycles().size());
        }
    }
}
