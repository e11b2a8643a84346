package draftwitness.cycle;

import draftwitness.reading.Block;
import draftwitness.reading.Channel;
import draftwitness.reading.SessionHeader;
import draftwitness.reading.SessionListener;
import draftwitness.reading.Slice;
import draftwitness.reading.Step;
import draftwitness.reading.Tap;
import draftwitness.reading.Unit;
import draftwitness.setup.Setup;
import java.util.ArrayList;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.function.DoubleUnaryOperator;

/**
 * A session drawn by hand: channels as functions of time, sampled, cut into blocks and given to an analyzer. Numbers
 * are made up for the tests and owe nothing to the furnace model.
 */
final class MadeSession {
    static final double SET = 240;
    private static final double NANOS = 1e9;

    private final double seconds;
    private final Map<Tap, List<long[]>> readings = new EnumMap<>(Tap.class);

    MadeSession(double seconds) {
        this.seconds = seconds;
    }

    /** A switch that makes at {@link #SET} and breaks 20 Pa below it, on the given draft. */
    static DoubleUnaryOperator contactOn(DoubleUnaryOperator draft) {
        boolean[] closed = {false};
        return t -> {
            double suction = -draft.applyAsDouble(t);
            closed[0] = closed[0] ? suction > SET - 20 : suction >= SET;
            return closed[0] ? 1 : 0;
        };
    }

    /** The same with the noise of a calm day. */
    static DoubleUnaryOperator noisy(DoubleUnaryOperator draft) {
        return t -> draft.applyAsDouble(t) + noise(t, 1.5, 1);
    }

    /** Adds a channel: pascals (or 0 and 1) by time in seconds; NaN is no reading. Steps of 0.01. */
    MadeSession channel(Tap tap, double rate, DoubleUnaryOperator value) {
        List<long[]> out = new ArrayList<>();
        for (long k = 0; k / rate < seconds; k++) {
            double v = value.applyAsDouble(k / rate);
            if (!Double.isNaN(v)) {
                out.add(new long[] {Math.round(k / rate * NANOS), Math.round(v * 100)});
            }
        }
        readings.put(tap, out);
        return this;
    }

    static Setup setup(double setPoint, double scale) {
        try {
            return Setup.parse(
                    "test",
                    "[switch]\nset-point = \"" + setPoint * scale + " Pa\"\ndifferential = \"" + 20 * scale
                            + " Pa\"\ntolerance = \"" + 12 * scale + " Pa\"\n[sequence]\nretry-max = 60\n");
        } catch (draftwitness.input.InputException e) {
            throw new IllegalStateException(e);
        }
    }

    CycleReport report() {
        return report(setup(SET, 1), new Random(0), 0, 1);
    }

    /**
     * Analyses it.
     *
     * @param cuts how readings are cut into blocks and how late, up to 0.8 s, they are handed over
     * @param shiftSeconds added to all times
     * @param scale factor on pressures
     */
    CycleReport report(Setup setup, Random cuts, double shiftSeconds, double scale) {
        CycleAnalyzer analyzer = new CycleAnalyzer(setup);
        feed(analyzer, cuts, shiftSeconds, scale, () -> {});
        return analyzer.report();
    }

    /**
     * Gives it to a listener.
     *
     * @param afterSlice called after each slice
     */
    void feed(SessionListener listener, Random cuts, double shiftSeconds, double scale, Runnable afterSlice) {
        List<Channel> channels = new ArrayList<>();
        readings.keySet()
                .forEach(t ->
                        channels.add(new Channel(t, "s", t.role(), t.quantity().baseUnit())));
        listener.begin(new SessionHeader(null, "", 1, channels, List.of(), ""));
        long shift = Math.round(shiftSeconds * NANOS);
        int[] next = new int[channels.size()];
        long end = Slice.indexOf(Math.round(seconds * NANOS) + shift) + 20;
        for (long cell = Slice.indexOf(shift); cell < end; cell++) {
            List<Block> blocks = new ArrayList<>();
            for (int c = 0; c < channels.size(); c++) {
                long limit = (cell + 1) * Slice.CELL_NANOS - (cell + 10 >= end ? 0 : (long) (cuts.nextDouble() * 8e8));
                next[c] = cut(channels.get(c), next[c], limit, shift, scale, cuts, blocks);
            }
            listener.slice(new Slice(cell, blocks, List.of()));
            afterSlice.run();
        }
        listener.end();
    }

    private int cut(Channel channel, int from, long limit, long shift, double scale, Random cuts, List<Block> blocks) {
        List<long[]> all = readings.getOrDefault(channel.tap(), List.of());
        boolean contact = channel.unit() == Unit.CONTACT;
        int at = from;
        while (at < all.size() && all.get(at)[0] + shift < limit) {
            int to = at;
            int most = 1 + cuts.nextInt(7);
            while (to < all.size() && to - at < most && all.get(to)[0] + shift < limit) {
                to++;
            }
            List<long[]> part = all.subList(at, to);
            blocks.add(new Block(
                    channel,
                    contact ? new Step(Unit.CONTACT, 0) : new Step(Unit.PASCAL, 2),
                    part.stream().mapToLong(r -> r[0] + shift).toArray(),
                    part.stream()
                            .mapToLong(r -> contact ? r[1] / 100 : Math.round(r[1] * scale))
                            .toArray()));
            at = to;
        }
        return at;
    }

    /** Noise by time, the same for the same time: uniform with the given half width. */
    static double noise(double t, double half, int seed) {
        return (new Random(Math.round(t * 1000) * 31 + seed).nextDouble() * 2 - 1) * half;
    }

    /**
     * Draft of a plain heating cycle that starts at {@code start}: rise within 2 s, 380 Pa cold, light-off 34 s later
     * with a short dip, 340 Pa hot, flame out at {@code off}, inducer stop 15 s after that.
     */
    static double cycle(double t, double start, double off) {
        double u = t - start;
        double stop = off + 15;
        if (u < 0) {
            return 0;
        }
        if (u < 2) {
            return -380 * (u / 2) * (u / 2);
        }
        if (t < start + 34) {
            return -380;
        }
        if (t < start + 34.4) {
            return -350;
        }
        if (t < off) {
            return -(340 + 40 * Math.exp(-(u - 34.4) / 25));
        }
        return t < stop ? -(380 - 20 * Math.exp(-(t - off) / 20)) : -370 * Math.exp(-(t - stop) / 1.2);
    }
}
