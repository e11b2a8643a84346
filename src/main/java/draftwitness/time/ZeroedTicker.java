package draftwitness.time;

import java.time.Instant;
import java.util.OptionalLong;

/** A clock that shows 0 at the moment it was made: session time. Any thread. */
final class ZeroedTicker implements Ticker {
    private final Ticker base;
    private final long origin;

    ZeroedTicker(Ticker base) {
        this.base = base;
        this.origin = base.nanos();
    }

    @Override
    public long nanos() {
        return base.nanos() - origin;
    }

    @Override
    public Instant wallClock() {
        return base.wallClock();
    }

    @Override
    public boolean hasMachinesWallClock() {
        return base.hasMachinesWallClock();
    }

    @Override
    public OptionalLong sinceBootNanos() {
        return base.sinceBootNanos();
    }

    @Override
    public long realNanos(long tickerNanos) {
        return base.realNanos(tickerNanos);
    }
}
