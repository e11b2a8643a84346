package draftwitness.dashboard;

import draftwitness.time.Ticker;
import java.time.Instant;

/** A clock that moves when a test says so. */
public final class FakeTicker implements Ticker {
    private long nanos = 1_000;

    public void advance(long by) {
        nanos += by;
    }

    @Override
    public long nanos() {
        return nanos;
    }

    @Override
    public Instant wallClock() {
        return Instant.EPOCH.plusNanos(nanos);
    }

    @Override
    public long realNanos(long tickerNanos) {
        return tickerNanos;
    }
}
