package draftwitness.time;

import java.time.Instant;

/** The machine's clock. Any thread. */
enum SystemTicker implements Ticker {
    INSTANCE;

    @Override
    public long nanos() {
        return System.nanoTime();
    }

    @Override
    public Instant wallClock() {
        return Instant.now();
    }

    @Override
    public long realNanos(long tickerNanos) {
        return tickerNanos;
    }
}
