package draftwitness.recording;

import com.sun.management.OperatingSystemMXBean;
import java.lang.management.ManagementFactory;

/**
 * Processor time that this whole process has used, all threads: what a piece of work costs, whatever else the machine is
 * doing. For work that waits for the disk, set {@code bench.wall} to measure by the clock on the wall.
 */
final class Cpu {
    private static final OperatingSystemMXBean SYSTEM =
            (OperatingSystemMXBean) ManagementFactory.getOperatingSystemMXBean();
    private static final boolean WALL = Boolean.getBoolean("bench.wall");

    private Cpu() {}

    static long nanos() {
        return WALL ? System.nanoTime() : SYSTEM.getProcessCpuTime();
    }

    /** Processor time of the whole process, whatever {@code bench.wall} says. */
    static long ofProcess() {
        return SYSTEM.getProcessCpuTime();
    }

    /** Processor time of the calling thread alone. */
    static long thread() {
        return ManagementFactory.getThreadMXBean().getCurrentThreadCpuTime();
    }
}
