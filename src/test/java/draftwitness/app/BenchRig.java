package draftwitness.app;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Locale;
import java.util.Random;
import java.util.function.DoubleUnaryOperator;

/**
 * A hand pump, a tube and a pressure switch on the bench, as a table of readings: the closed volume gains suction from
 * the pump and loses it through a leak, {@code dp/dt = pump - p/tau}, stepped every millisecond. The switch is exact.
 */
final class BenchRig {
    private static final double STEP = 0.001;

    private final double leakSeconds;
    private final double make;
    private final double breaks;

    /**
     * A rig.
     *
     * @param leakSeconds time constant of the leak
     * @param make suction at which the contact closes, pascal
     * @param breaks suction at which it opens
     */
    BenchRig(double leakSeconds, double make, double breaks) {
        this.leakSeconds = leakSeconds;
        this.make = make;
        this.breaks = breaks;
    }

    /**
     * Writes what an instrument at 50 readings a second sees, with a noise of 0.4 Pa.
     *
     * @param pump suction that the pump adds, pascal a second, by time in seconds
     */
    void write(Path file, double seconds, DoubleUnaryOperator pump) throws IOException {
        Random random = new Random(7);
        StringBuilder csv = new StringBuilder("time_s,draft.switch [Pa],contact.switch [1]\n");
        double suction = 0;
        boolean closed = false;
        for (int i = 0; i * STEP < seconds; i++) {
            suction += STEP * (pump.applyAsDouble(i * STEP) - suction / leakSeconds);
            suction = Math.max(0, suction);
            closed = closed ? suction > breaks : suction >= make;
            if (i % 20 == 0) {
                double read = -suction + 0.4 * random.nextGaussian();
                csv.append(String.format(Locale.ROOT, "%.3f,%.1f,%d%n", i * STEP, read, closed ? 1 : 0));
            }
        }
        Files.writeString(file, csv.toString().replace("\r\n", "\n"));
    }
}
