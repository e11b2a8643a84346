package draftwitness.time;

import java.time.Instant;

/** A clock that runs at a fixed multiple of another, starting together with it. Any thread. */
final class ScaledTicker implements Ticker {
    private final Ticker base;
    private final double speed;
    private final long baseOrigin;
    private final Instant wallOrigin;

    ScaledTicker(Ticker base, double speed) {
        if (!(speed > 0) || Double.isInfinite(speed)) {
            throw new IllegalArgumentException("speed " + speed + " is not a positive number");
        }
        this.base = base;
        this.speed = speed;
        this.baseOrigin = base.nanos();
        this.wallOrigin = base.wallClock();
    }

    @Override
    public long nanos() {
        return baseOrigin + Math.round((base.nanos() - baseOrigin) * speed);
    }

    @Override
    public Instant wallClock() {
        return wallOrigin.plusNanos(nanos() - baseOrigin);
    }

    @Override
    public long realNanos(long tickerNanos) {
        return base.realNanos((long) Math.ceil(tickerNanos / speed));
    }
}
