package draftwitness.furnace;

import java.util.SplittableRandom;

/**
 * Seeded random numbers, one stream a purpose, so that an instrument's noise never changes the furnace.
 *
 * <p>Built on {@link SplittableRandom}, which is the SplitMix64 generator (Steele, Lea, Flood: Fast splittable
 * pseudorandom number generators, 2014); the tests hold it to published numbers, so that a seed keeps its meaning.
 * Normal numbers by Marsaglia's polar method. Not thread-safe; one owner.
 */
final class Noise {
    private static final double UNIT = 0x1p-53;

    private final SplittableRandom random;
    private double spare;
    private boolean hasSpare;

    private Noise(long seed) {
        random = new SplittableRandom(seed);
    }

    /** A stream of its own for each seed and name. */
    static Noise of(long seed, String name) {
        // One number of the seed's own stream keeps neighbouring seeds apart; the name picks another start.
        return new Noise(new SplittableRandom(seed).nextLong() ^ (0x9E3779B97F4A7C15L * name.hashCode()));
    }

    private double uniform() {
        return (random.nextLong() >>> 11) * UNIT;
    }

    /** Normally distributed, mean 0, standard deviation 1. */
    double gaussian() {
        if (hasSpare) {
            hasSpare = false;
            return spare;
        }
        double u;
        double v;
        double s;
        do {
            u = 2 * uniform() - 1;
            v = 2 * uniform() - 1;
            s = u * u + v * v;
        } while (s >= 1 || s == 0);
        double scale = Math.sqrt(-2 * StrictMath.log(s) / s);
        spare = v * scale;
        hasSpare = true;
        return u * scale;
    }

    /** Evenly distributed in {@code from} to {@code to}. */
    double between(double from, double to) {
        return from + (to - from) * uniform();
    }

    /** True with the given probability. */
    boolean chance(double probability) {
        return uniform() < probability;
    }

    /** A waiting time of events that come at random, in the unit of the mean. */
    double waiting(double mean) {
        return -mean * StrictMath.log(1 - uniform());
    }
}
