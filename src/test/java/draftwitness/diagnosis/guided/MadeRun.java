package draftwitness.diagnosis.guided;

import draftwitness.input.InputException;
import draftwitness.reading.Block;
import draftwitness.reading.Channel;
import draftwitness.reading.Quantity;
import draftwitness.reading.Slice;
import draftwitness.reading.SourceEvent;
import draftwitness.reading.Step;
import draftwitness.reading.Tap;
import draftwitness.reading.Unit;
import draftwitness.reading.Zeros;
import draftwitness.setup.Setup;
import java.util.ArrayList;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.function.DoubleUnaryOperator;

/** A measurement on channels drawn by hand: functions of time, sampled and cut into slices. */
final class MadeRun {
    static final long SECOND = 1_000_000_000L;

    private final Map<Tap, DoubleUnaryOperator> channels = new EnumMap<>(Tap.class);
    private final Map<Tap, Double> rates = new EnumMap<>(Tap.class);
    private final Zeros zeros = new Zeros();
    private Terms terms = Terms.of(plate(""));
    private GuidedRun run;
    private long cell;

    static Setup plate(String toml) {
        try {
            return Setup.parse("test", toml);
        } catch (InputException e) {
            throw new IllegalStateException(e);
        }
    }

    /** Adds a channel: pascals, or 0 and 1, by time in seconds. */
    MadeRun channel(Tap tap, double rate, DoubleUnaryOperator value) {
        channels.put(tap, value);
        rates.put(tap, rate);
        return this;
    }

    MadeRun terms(Terms given) {
        terms = given;
        return this;
    }

    Set<Tap> taps() {
        return channels.keySet();
    }

    GuidedRun start(GuidedKind kind) {
        run = new GuidedRun(GuidedPlan.of(kind, taps(), terms.tap()).orElseThrow(), terms, zeros);
        return run;
    }

    /** An event of the session, before the next slice. */
    void event(SourceEvent event) {
        zeros.slice(new Slice(cell, List.of(), List.of(event)));
    }

    long nowNanos() {
        return cell * Slice.CELL_NANOS;
    }

    /** Plays on. */
    MadeRun play(double seconds) {
        long end = cell + Math.round(seconds * 10);
        for (; cell < end; cell++) {
            List<Block> blocks = new ArrayList<>();
            channels.forEach((tap, value) -> block(tap, value, blocks));
            run.slice(new Slice(cell, blocks, List.of()));
        }
        return this;
    }

    private void block(Tap tap, DoubleUnaryOperator value, List<Block> blocks) {
        double rate = rates.get(tap);
        long first = (long) Math.ceil(cell / 10.0 * rate - 1e-9);
        long end = (long) Math.ceil((cell + 1) / 10.0 * rate - 1e-9);
        if (end <= first) {
            return;
        }
        boolean contact = tap.quantity() == Quantity.CONTACT;
        Step step = contact ? new Step(Unit.CONTACT, 0) : new Step(Unit.PASCAL, 2);
        long[] times = new long[(int) (end - first)];
        long[] counts = new long[times.length];
        for (int i = 0; i < times.length; i++) {
            double t = (first + i) / rate;
            times[i] = Math.round(t * SECOND);
            counts[i] = Math.round(value.applyAsDouble(t) * step.countsPerUnit());
        }
        blocks.add(new Block(new Channel(tap, "s", "r", step.unit()), step, times, counts));
    }

    /** Begins a part, plays until it has ended by itself, and no longer than so many seconds. */
    MadeRun take(String part, double mostSeconds) {
        run.begin(part, nowNanos());
        for (int i = 0; i < mostSeconds * 10 && run.isRunning(); i++) {
            play(0.1);
        }
        return this;
    }
}
