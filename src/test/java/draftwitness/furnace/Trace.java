package draftwitness.furnace;

import draftwitness.furnace.BurnerControl.State;
import draftwitness.input.InputException;
import draftwitness.reading.Tap;
import java.util.Arrays;
import java.util.EnumMap;
import java.util.Map;
import java.util.function.IntPredicate;
import java.util.stream.IntStream;

/** What perfect instruments would show at every tick of a scenario; index {@code i} is time {@code (i + 1)} ticks. */
final class Trace {
    private final Map<Tap, double[]> values = new EnumMap<>(Tap.class);
    private final State[] states;

    private Trace(House house, long seed, double seconds, Tap... taps) {
        int n = (int) Math.round(seconds / Furnace.TICK_SECONDS);
        states = new State[n];
        for (Tap tap : taps) {
            values.put(tap, new double[n]);
        }
        Furnace f = new Furnace(house, seed, 1);
        for (int i = 0; i < n; i++) {
            f.tick();
            states[i] = f.control().state();
            for (Tap tap : taps) {
                values.get(tap)[i] = f.at(tap);
            }
        }
    }

    static Trace of(String scenario, double seconds, Tap... taps) throws InputException {
        return new Trace(Scenarios.find(scenario).house(), 1, seconds, taps);
    }

    double[] of(Tap tap) {
        return values.get(tap);
    }

    State state(int i) {
        return states[i];
    }

    int size() {
        return states.length;
    }

    /** First index in a state at or after another index, or -1. */
    int first(State state, int from) {
        return IntStream.range(from, states.length)
                .filter(i -> states[i] == state)
                .findFirst()
                .orElse(-1);
    }

    /** Mean between two times, s. */
    double mean(Tap tap, double from, double to) {
        return Arrays.stream(of(tap), index(from), index(to)).average().orElseThrow();
    }

    /** Standard deviation between two times, s. */
    double deviation(Tap tap, double from, double to) {
        double mean = mean(tap, from, to);
        return Math.sqrt(Arrays.stream(of(tap), index(from), index(to))
                .map(v -> (v - mean) * (v - mean))
                .average()
                .orElseThrow());
    }

    /** Correlation of two taps between two times, s. */
    double correlation(Tap a, Tap b, double from, double to) {
        double ma = mean(a, from, to);
        double mb = mean(b, from, to);
        double sum = IntStream.range(index(from), index(to))
                .mapToDouble(i -> (of(a)[i] - ma) * (of(b)[i] - mb))
                .average()
                .orElseThrow();
        return sum / deviation(a, from, to) / deviation(b, from, to);
    }

    /** Mean over the ticks that fit. */
    double mean(Tap tap, IntPredicate which) {
        return IntStream.range(0, states.length)
                .filter(which)
                .mapToDouble(i -> of(tap)[i])
                .average()
                .orElseThrow();
    }

    /** Frequency of the strongest line between two others, by a plain Fourier sum over a windowed stretch. */
    double dominantHertz(Tap tap, double from, double to, double slowest, double fastest) {
        double[] x = Arrays.copyOfRange(of(tap), index(from), index(to));
        double mean = Arrays.stream(x).average().orElseThrow();
        double best = -1;
        double at = 0;
        for (double f = slowest; f <= fastest; f += 0.01) {
            double re = 0;
            double im = 0;
            for (int i = 0; i < x.length; i++) {
                double w = 1 - Math.cos(2 * Math.PI * i / x.length);
                double phase = 2 * Math.PI * f * i * Furnace.TICK_SECONDS;
                re += (x[i] - mean) * w * Math.cos(phase);
                im += (x[i] - mean) * w * Math.sin(phase);
            }
            if (re * re + im * im > best) {
                best = re * re + im * im;
                at = f;
            }
        }
        return at;
    }

    private static int index(double seconds) {
        return (int) Math.round(seconds / Furnace.TICK_SECONDS);
    }
}
