package draftwitness.diagnosis.guided;

import draftwitness.reading.Tap;
import draftwitness.signal.LineFit;
import draftwitness.signal.Moments;
import org.jspecify.annotations.Nullable;

/**
 * The level of a stretch of readings and how well it is known.
 *
 * <p>The uncertainty comes from the scatter of the means of ten equal batches, so that slow movements count as what
 * they are (batch means: Law and Carson, Operations Research 27 (1979)), and from the instrument's step. It holds
 * nothing of the instrument's own error of calibration.
 *
 * @param mean the level
 * @param deviation standard deviation of single readings
 * @param uncertainty half width of the 95 % interval of the mean
 * @param slope change a second, of a straight line
 * @param slopeUncertainty half width of its 95 % interval, from the batch means
 * @param readings how many
 */
record Level(double mean, double deviation, double uncertainty, double slope, double slopeUncertainty, int readings) {
    private static final int BATCHES = 10;

    /** Twice the tail of Student's t at 9 and 8 degrees of freedom, 95 % both sides (tables of the distribution). */
    private static final double T9 = 2.262;

    private static final double T8 = 2.306;

    /** The level at a tap of a part; null if the part is not there yet or has too few readings of it. */
    static @Nullable Level at(@Nullable PartReadings part, Tap tap) {
        return part == null || part.at(tap).size() < fewest() ? null : of(part.at(tap));
    }

    /** The level of readings; at least twenty. */
    static Level of(Samples samples) {
        int n = samples.size();
        if (n < 2 * BATCHES) {
            throw new IllegalArgumentException(n + " readings are too few for a level");
        }
        Moments all = new Moments();
        Moments means = new Moments();
        double[] at = new double[BATCHES];
        double[] batch = new double[BATCHES];
        for (int b = 0; b < BATCHES; b++) {
            int from = b * n / BATCHES;
            int to = (b + 1) * n / BATCHES;
            Moments one = new Moments();
            Moments when = new Moments();
            for (int i = from; i < to; i++) {
                all.add(samples.value(i));
                one.add(samples.value(i));
                when.add((samples.time(i) - samples.time(0)) / 1e9);
            }
            means.add(one.mean());
            batch[b] = one.mean();
            at[b] = when.mean();
        }
        LineFit line = LineFit.of(at, batch);
        double scatter = T9 * means.deviation() / Math.sqrt(BATCHES);
        double rounding = 2 * samples.step() / Math.sqrt(12);
        return new Level(
                all.mean(),
                all.deviation(),
                Math.hypot(scatter, rounding),
                line.slope(),
                T8 * line.slopeDeviation(),
                n);
    }

    /** Fewest readings that a level is made of. */
    static int fewest() {
        return 2 * BATCHES;
    }
}
