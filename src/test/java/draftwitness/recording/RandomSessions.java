package draftwitness.recording;

import draftwitness.reading.Block;
import draftwitness.reading.Channel;
import draftwitness.reading.SessionHeader;
import draftwitness.reading.Slice;
import draftwitness.reading.SourceEvent;
import draftwitness.reading.SourceInfo;
import draftwitness.reading.SourceState;
import draftwitness.reading.Step;
import draftwitness.reading.Tap;
import draftwitness.reading.Unit;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Random;

/**
 * Seeded sessions of many shapes: rates, jitter, gaps, late readings, changes of step, extreme counts; arrivals and
 * counters beside the times of some.
 */
final class RandomSessions {
    static final long STEP_NANOS = SessionHeader.LIVE_TIME_STEP_NANOS;

    private static final Channel SWITCH = new Channel(Tap.DRAFT_SWITCH, "gauge", "pressure", Unit.PASCAL);
    private static final Channel MANIFOLD = new Channel(Tap.GAS_MANIFOLD, "gas", "pressure", Unit.INCH_OF_WATER);
    private static final Channel CONTACT = new Channel(Tap.CONTACT_SWITCH, "io", "contact", Unit.CONTACT);
    private static final Channel FLAME = new Channel(Tap.FLAME_CURRENT, "io", "flame", Unit.MICROAMPERE);

    private RandomSessions() {}

    static SessionHeader header(long timeStepNanos) {
        return new SessionHeader(
                Instant.parse("2026-01-17T22:10:00Z"),
                "Back hall \u00e4 \"quoted\"",
                timeStepNanos,
                List.of(SWITCH, MANIFOLD, CONTACT, FLAME),
                List.of(
                        new SourceInfo("gauge", "ascii-line?x=1", "serial:/dev/ttyUSB0?baud=9600", "name = 'x'\n"),
                        new SourceInfo("gas", "ascii-line", "tcp:h:1", ""),
                        new SourceInfo("io", "io", "file:x", "")),
                "title = \"Back hall\"\n[switch]\nset-point = \"0.95 inH2O\"\n");
    }

    static SessionHeader header() {
        return header(STEP_NANOS);
    }

    /** Slices of so many cells, from a first cell on. */
    static List<Slice> slices(SessionHeader header, long seed, long firstCell, int cells) {
        return slices(header, seed, firstCell, cells, true, false);
    }

    /** The same without counts of 64 bits, which no table can hold in a finer step. */
    static List<Slice> tame(SessionHeader header, long seed, long firstCell, int cells) {
        return slices(header, seed, firstCell, cells, false, false);
    }

    /** Both: for tables, long but small. */
    static List<Slice> tameAndSlow(SessionHeader header, long seed, long firstCell, int cells) {
        return slices(header, seed, firstCell, cells, false, true);
    }

    /** A session of a few readings a second, long but small. */
    static List<Slice> slow(SessionHeader header, long seed, long firstCell, int cells) {
        return slices(header, seed, firstCell, cells, true, true);
    }

    private static List<Slice> slices(
            SessionHeader header, long seed, long firstCell, int cells, boolean wild, boolean slow) {
        Random random = new Random(seed);
        List<Gauge> gauges = new ArrayList<>();
        for (int c = 0; c < header.channels().size(); c++) {
            gauges.add(new Gauge(c, header, random, firstCell, wild, slow, new Beside(seed * 31 + c, wild)));
        }
        Slicer slicer = new Slicer(header.channels(), firstCell);
        List<Slice> slices = new ArrayList<>();
        for (long cell = firstCell; cell < firstCell + cells; cell++) {
            for (Gauge gauge : gauges) {
                gauge.fill(slicer, cell);
            }
            if (random.nextInt(slow ? 150 : 15) == 0) {
                SourceState[] states = SourceState.values();
                slicer.add(new SourceEvent(
                        "gauge",
                        cell * Slice.CELL_NANOS + random.nextInt(1000),
                        states[random.nextInt(states.length)],
                        random.nextBoolean() ? "" : "cable \u2212 pulled"));
            }
            slices.add(slicer.next());
        }
        return slices;
    }

    /**
     * What stands beside one instrument's times, if anything; drawn apart, so that the readings do not depend on it.
     */
    private static final class Beside {
        private final Random random;
        private final boolean paced;
        private final boolean counted;
        private final boolean wild;
        private boolean computed;
        private long counter;

        Beside(long seed, boolean wild) {
            random = new Random(seed);
            paced = random.nextInt(3) == 0;
            counted = random.nextInt(3) == 0;
            counter = random.nextInt(65536);
            this.wild = wild;
            computed = paced;
        }

        long arrival(long time, long timeStep) {
            if (paced && random.nextInt(400) == 0) {
                computed = !computed; // a declared pace is given up, or a link opened again
            }
            if (!computed) {
                return Slicer.NO_ARRIVAL;
            }
            long delay = random.nextInt(50) == 0 ? random.nextInt(4000) : random.nextInt(160);
            return wild && random.nextInt(500) == 0
                    ? random.nextLong() / timeStep * timeStep
                    : time + (delay - 1) * timeStep;
        }

        long counter() {
            if (!counted) {
                return Block.NO_COUNTER;
            }
            counter = (counter + (random.nextInt(40) == 0 ? 2 : 1)) & 0xFFFF;
            return random.nextInt(30) == 0
                    ? Block.NO_COUNTER
                    : wild && random.nextInt(300) == 0 ? random.nextLong() >>> 2 : counter;
        }
    }

    /** One instrument with its own habits. */
    private static final class Gauge {
        private final int channel;
        private final Random random;
        private final long timeStep;
        private final Unit[] units;
        private final long period;
        private final long jitter;
        private final boolean wild;
        private final boolean changing;
        private final Beside beside;
        private Step step;
        private long value;
        private long ideal;
        private long last;

        Gauge(
                int channel,
                SessionHeader header,
                Random random,
                long firstCell,
                boolean wild,
                boolean slow,
                Beside beside) {
            this.beside = beside;
            this.channel = channel;
            this.random = random;
            this.timeStep = header.timeStepNanos();
            Unit own = header.channels().get(channel).unit();
            this.units = own == Unit.INCH_OF_WATER || own == Unit.PASCAL
                    ? new Unit[] {own, Unit.PASCAL, Unit.INCH_OF_WATER, Unit.MILLIBAR}
                    : new Unit[] {own};
            long[] periods = {1_000_000, 20_000_000, 100_000_000, 333_333_333, 2_000_000_000};
            this.period = slow ? 333_333_333 : periods[random.nextInt(periods.length)];
            this.jitter = random.nextBoolean() ? 0 : Math.max(1, period / 20);
            this.wild = wild && random.nextInt(6) == 0;
            this.changing = random.nextInt(3) == 0;
            this.step = new Step(own, own == Unit.CONTACT ? 0 : random.nextInt(4));
            this.ideal = firstCell * Slice.CELL_NANOS + random.nextInt(1_000_000);
            this.last = Long.MIN_VALUE;
        }

        void fill(Slicer slicer, long cell) {
            long end = (cell + 1) * Slice.CELL_NANOS;
            while (true) {
                long time = Math.floorDiv(ideal + (jitter == 0 ? 0 : random.nextLong(jitter)), timeStep) * timeStep;
                if (time >= end || random.nextInt(200) == 0) { // now and then a reading waits for the next cell
                    return;
                }
                if (time > last && random.nextInt(50) != 0) {
                    slicer.add(channel, step, time, next(), beside.arrival(time, timeStep), beside.counter());
                    last = time;
                }
                ideal += random.nextInt(300) == 0 ? 10 * period : period;
            }
        }

        private long next() {
            if (step.unit() == Unit.CONTACT) {
                value = random.nextInt(20) == 0 ? 1 - value : value;
                return value;
            }
            if (changing && random.nextInt(60) == 0) {
                step = new Step(units[random.nextInt(units.length)], random.nextInt(5));
            }
            if (wild && random.nextInt(10) == 0) {
                return random.nextLong();
            }
            value += Math.round(random.nextGaussian() * 5);
            return value;
        }
    }
}
