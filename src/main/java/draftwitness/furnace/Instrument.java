package draftwitness.furnace;

import draftwitness.reading.Quantity;

/** One instrument at work: lag, zero, noise, resolution, sampling times, gaps. Not thread-safe; one owner. */
final class Instrument {
    private static final double BOUNCE_SECONDS = 0.004;
    private static final double NANOS = 1e9;

    private final InstrumentSpec spec;
    private final Noise noise;
    private final Lag lag;
    private final double counts;
    private final boolean isContact;
    private double previous;
    private double current;
    private long index;
    private long nextNanos;
    private long lastNanos = -1;
    private double gapEnds = -1;
    private double nextGap;

    Instrument(InstrumentSpec spec, Noise noise, double start) {
        this.spec = spec;
        this.noise = noise;
        this.lag = new Lag(start);
        this.counts = StrictMath.pow(10, spec.decimals());
        this.isContact = spec.tap().quantity() == Quantity.CONTACT;
        previous = start;
        current = start;
        nextGap = spec.dropOutsPerHour() > 0 ? noise.waiting(3600 / spec.dropOutsPerHour()) : Double.POSITIVE_INFINITY;
        schedule();
    }

    InstrumentSpec spec() {
        return spec;
    }

    /** When the next reading is due. */
    long nextNanos() {
        return nextNanos;
    }

    /** Takes what a perfect instrument would show at the end of a tick. */
    void tick(double value) {
        previous = current;
        current = spec.lagSeconds() > 0 ? lag.step(value, spec.lagSeconds(), Furnace.TICK_SECONDS) : value;
    }

    /**
     * Takes the reading that is due and schedules the next.
     *
     * @param tickEnd time of the last {@link #tick}, s; the reading lies within the tick that ended there
     * @param contactChangedAt when the switch's contact last changed, s
     */
    void sample(double tickEnd, double contactChangedAt, int sensorIndex, SensorOutput out) {
        double t = nextNanos / NANOS;
        double share = 1 - (tickEnd - t) / Furnace.TICK_SECONDS;
        long count;
        if (isContact) {
            boolean bounces = t >= contactChangedAt && t - contactChangedAt < BOUNCE_SECONDS;
            count = bounces ? (noise.chance(0.5) ? 1 : 0) : Math.round(share >= 1 ? current : previous);
        } else {
            double value = previous + (current - previous) * share + spec.zero() + spec.zeroDriftPerHour() * t / 3600;
            count = Math.round(spec.unit().fromBase(value + spec.noise() * noise.gaussian()) * counts);
        }
        if (!inGap(t)) {
            out.reading(sensorIndex, nextNanos, count);
        }
        lastNanos = nextNanos;
        schedule();
    }

    private boolean inGap(double t) {
        if (t >= nextGap) {
            gapEnds = t + noise.waiting(spec.dropOutSeconds());
            nextGap = gapEnds + noise.waiting(3600 / spec.dropOutsPerHour());
        }
        return t < gapEnds;
    }

    private void schedule() {
        double period = 1 / spec.rateHz();
        double jitter = spec.jitterSeconds() > 0 ? spec.jitterSeconds() * noise.gaussian() : 0;
        jitter = Math.max(-0.4 * period, Math.min(0.4 * period, jitter));
        nextNanos = Math.max(lastNanos + 1000, Math.round((index * period + jitter) * NANOS));
        nextNanos = Math.max(0, nextNanos);
        index++;
    }
}
