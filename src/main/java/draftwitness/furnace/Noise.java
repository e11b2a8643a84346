package draftwitness.furnace;

import java.util.Random;

/**
 * Seeded random numbers, one stream a purpose, so that an instrument's noise never changes the furnace. Built on
 * {@link Random}, whose algorithm its documentation fixes. Not thread-safe; one owner.
 */
final class Noise {
    private final Random random;

    private Noise(long seed) {
        random = new Random(seed);
    }

    /** A stream of its own for each seed and name. */
    static Noise of(long seed, String name) {
        // The finaliser of SplitMix64 (Steele, Lea, Flood 2014) keeps neighbouring seeds apart.
        long z = seed * 0x9E3779B97F4A7C15L + name.hashCode();
        z = (z ^ (z >>> 30)) * 0xBF58476D1CE4E5B9L;
        z = (z ^ (z >>> 27)) * 0x94D049BB133111EBL;
        return new Noise(z ^ (z >>> 31));
    }

    /** Normally distributed, mean 0, standard deviation 1. */
    double gaussian() {
        return random.nextGaussian();
    }

    /** Evenly distributed in {@code from} to {@code to}. */
    double between(double from, double to) {
        return from + (to - from) * random.nextDouble();
    }

    /** True with the given probability. */
    boolean chance(double probability) {
        return random.nextDouble() < probability;
    }

    /** A waiting time of events that come at random, in the unit of the mean. */
    double waiting(double mean) {
        return -mean * StrictMath.log(1 - random.nextDouble());
    }
}
