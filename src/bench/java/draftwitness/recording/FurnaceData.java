package draftwitness.recording;

import draftwitness.reading.Channel;
import draftwitness.reading.SessionHeader;
import draftwitness.reading.Slice;
import draftwitness.reading.Step;
import draftwitness.reading.Tap;
import draftwitness.reading.Unit;
import java.time.Instant;
import java.util.List;
import java.util.Random;

/**
 * Readings of the furnace kind: four pressure channels at 50 Hz in steps of 0.1 Pa; heating cycles of twenty minutes;
 * white sensor noise and first-order gusts; each time scattered about its nominal place.
 *
 * <p>Because the generator is known, so is the least that any lossless code can take on average: {@link #floorBytes()}.
 */
final class FurnaceData {
    static final int CHANNELS = 4;
    static final int RATE = 50;
    private static final double NOISE_COUNTS = 4; // 0.4 Pa, white
    private static final double GUST_COUNTS = 3; // 0.3 Pa, correlated over a second
    private static final double GUST_MEMORY = Math.exp(-1.0 / RATE);
    private static final Tap[] TAPS = {Tap.DRAFT_SWITCH, Tap.DRAFT_INDUCER, Tap.GAS_MANIFOLD, Tap.STATIC_SUPPLY};
    private static final double[] PLATEAU = {-2500, -3100, 8700, 900};

    private final Random random;
    private final long timeStepNanos;
    private final double jitterSteps;
    private final double[] gust = new double[CHANNELS];
    private long place;

    /** @param jitterNanos standard deviation of the times' scatter; cut off at twice that */
    FurnaceData(long seed, long timeStepNanos, double jitterNanos) {
        this.random = new Random(seed);
        this.timeStepNanos = timeStepNanos;
        this.jitterSteps = jitterNanos / timeStepNanos;
    }

    SessionHeader header() {
        Channel[] channels = new Channel[CHANNELS];
        for (int c = 0; c < CHANNELS; c++) {
            channels[c] = new Channel(TAPS[c], "gauge", "p" + c, Unit.PASCAL);
        }
        return new SessionHeader(
                Instant.parse("2026-01-17T22:10:00Z"), "bench", timeStepNanos, List.of(channels), List.of(), "");
    }

    static Step step() {
        return new Step(Unit.PASCAL, 1);
    }

    /** Fills the open cell of the slicer; five readings a channel. */
    Slice next(Slicer slicer) {
        long period = 1_000_000_000L / RATE;
        int places = (int) (Slice.CELL_NANOS / period);
        for (int c = 0; c < CHANNELS; c++) {
            for (int k = 0; k < places; k++) {
                long nominal = (place + k) * period + period / 2;
                long time = Math.floorDiv(nominal, timeStepNanos) + scatter();
                slicer.add(c, step(), time * timeStepNanos, count(c, nominal));
            }
        }
        place += places;
        return slicer.next();
    }

    private long scatter() {
        double limit = 2 * jitterSteps;
        double x = random.nextGaussian() * jitterSteps;
        return Math.round(Math.max(-limit, Math.min(limit, x)));
    }

    private long count(int channel, long timeNanos) {
        double t = timeNanos / 1e9 % 1200;
        double level = t < 60
                ? 0
                : t < 90
                        ? 1 - Math.exp(-(t - 60) / 1.5)
                        : t < 780 ? 0.87 + 0.13 * Math.exp(-(t - 90) / 30) : Math.exp(-(t - 780) / 3);
        gust[channel] = GUST_MEMORY * gust[channel]
                + Math.sqrt(1 - GUST_MEMORY * GUST_MEMORY) * GUST_COUNTS * random.nextGaussian();
        return Math.round(PLATEAU[channel] * level + gust[channel] + NOISE_COUNTS * random.nextGaussian());
    }

    /**
     * Entropy rate of the generator in bytes a reading, the slow level taken as known. Times: entropy of the rounded,
     * cut-off normal scatter. Counts: 0.5 log2(2 pi e v) bits (Cover and Thomas, Elements of Information Theory, 2nd
     * ed., chapter 8) with v the variance of the best linear one-step prediction (Kalman's steady state for white noise
     * on a first-order process) plus 1/12 for rounding.
     */
    double floorBytes() {
        return (timeBits() + countBits()) / 8;
    }

    double timeBits() {
        double bits = 0;
        long limit = Math.round(2 * jitterSteps);
        for (long i = -limit; i <= limit; i++) {
            double from = i == -limit ? -1e9 : (i - 0.5) / jitterSteps;
            double to = i == limit ? 1e9 : (i + 0.5) / jitterSteps;
            double p = normal(to) - normal(from);
            bits -= p > 0 ? p * Math.log(p) / Math.log(2) : 0;
        }
        return bits;
    }

    double countBits() {
        double q = (1 - GUST_MEMORY * GUST_MEMORY) * GUST_COUNTS * GUST_COUNTS;
        double r = NOISE_COUNTS * NOISE_COUNTS + 1.0 / 12;
        double p = q;
        for (int i = 0; i < 10_000; i++) {
            p = GUST_MEMORY * GUST_MEMORY * (p - p * p / (p + r)) + q;
        }
        return 0.5 * Math.log(2 * Math.PI * Math.E * (p + r)) / Math.log(2);
    }

    /** Standard normal distribution function (Abramowitz and Stegun 26.2.17, error below 7.5e-8). */
    private static double normal(double x) {
        if (x < -8 || x > 8) {
            return x < 0 ? 0 : 1;
        }
        double t = 1 / (1 + 0.2316419 * Math.abs(x));
        double tail = Math.exp(-x * x / 2)
                / Math.sqrt(2 * Math.PI)
                * t
                * (0.319381530 + t * (-0.356563782 + t * (1.781477937 + t * (-1.821255978 + t * 1.330274429))));
        return x > 0 ? 1 - tail : tail;
    }
}
