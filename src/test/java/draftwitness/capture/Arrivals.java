package draftwitness.capture;

import java.util.Arrays;
import java.util.Random;

/**
 * Injected arrivals of an instrument that samples at a steady pace: what a link's delays make of it. All simulated;
 * nothing is measured on a real link. Times in nanoseconds, {@code n} messages, in order.
 */
final class Arrivals {
    static final double MILLI = 1e6;

    final double periodNanos;
    final double[] taken;
    final long[] arrived;
    private double least = Double.MAX_VALUE;

    private Arrivals(int n, double periodNanos) {
        this.periodNanos = periodNanos;
        this.taken = new double[n];
        this.arrived = new long[n];
    }

    /** What happens to each message on its way. */
    interface Delay {
        /** Earliest arrival of message {@code k}, taken at {@code takenNanos}. */
        double arrival(int k, double takenNanos);
    }

    /**
     * An instrument's messages.
     *
     * @param hertz declared rate
     * @param skew how much slower its clock runs than ours: 1e-4 is 100 millionths
     */
    static Arrivals of(int n, double hertz, double skew, Delay delay) {
        Arrivals all = new Arrivals(n, 1e9 / hertz);
        double last = 0;
        for (int k = 0; k < n; k++) {
            all.taken[k] = 3.3e9 + k * all.periodNanos * (1 + skew);
            double arrival = Math.max(last, delay.arrival(k, all.taken[k])); // links keep the order
            all.least = Math.min(all.least, arrival - all.taken[k]);
            all.arrived[k] = Math.round(arrival);
            last = arrival;
        }
        return all;
    }

    int size() {
        return taken.length;
    }

    /** How far off a time is, in ms, the link's smallest delay not counted: nobody can see that one from here. */
    double errorMillis(int k, double timeNanos) {
        return (timeNanos - taken[k] - least) / MILLI;
    }

    /**
     * An always quick link whose reader is now and then held up: 1 % of messages wait 20 to 60 ms, 0.1 % up to 300 ms.
     */
    static Delay plain(Random random) {
        double[] held = {0};
        return (k, t) -> {
            double own = t + 0.05 * MILLI - 0.02 * MILLI * Math.log(1 - random.nextDouble());
            double p = random.nextDouble();
            if (p < 0.001) {
                held[0] = t + (60 + 240 * random.nextDouble()) * MILLI;
            } else if (p < 0.011) {
                held[0] = t + (20 + 40 * random.nextDouble()) * MILLI;
            }
            return Math.max(own, held[0]);
        };
    }

    /** An adapter that hands on what it has every 16 ms. */
    static Delay adapter(Random random) {
        return (k, t) -> Math.ceil(t / (16 * MILLI)) * 16 * MILLI + 0.1 * MILLI * random.nextDouble();
    }

    /** Radio events every 45 ms, each failing with 10 %, and every 8 s or so a stall of 0.3 to 0.8 s. */
    static Delay radio(Random random) {
        double[] stalled = {0};
        return (k, t) -> {
            if (random.nextDouble() < 1.0 / 400) {
                stalled[0] = t + (300 + 500 * random.nextDouble()) * MILLI;
            }
            double event = Math.ceil(Math.max(t, stalled[0]) / (45 * MILLI));
            while (random.nextDouble() < 0.1) {
                event++;
            }
            return event * 45 * MILLI + 0.1 * MILLI * random.nextDouble();
        };
    }

    /** What is left of errors: standard deviation, 99th percentile and largest of the magnitudes, in ms. */
    record Spread(double std, double p99, double max) {
        static Spread of(double[] errors) {
            double mean = Arrays.stream(errors).average().orElse(0);
            double sum = Arrays.stream(errors).map(e -> (e - mean) * (e - mean)).sum();
            double[] sizes = Arrays.stream(errors).map(Math::abs).sorted().toArray();
            return new Spread(
                    Math.sqrt(sum / errors.length), sizes[(int) (0.99 * (sizes.length - 1))], sizes[sizes.length - 1]);
        }
    }
}
