package draftwitness.time;

import java.time.Instant;
import java.util.OptionalLong;

/**
 * A clock: monotonic time for stamping and waiting, wall-clock time for anchoring a recording once.
 *
 * <p>Any thread.
 */
public interface Ticker {

    /** Monotonic time in nanoseconds from an arbitrary origin; never goes backwards. */
    long nanos();

    /** Wall-clock time; may jump when the machine's clock is set. */
    Instant wallClock();

    /**
     * Real nanoseconds that pass while this ticker advances by the given amount; what a thread must wait for.
     *
     * @param tickerNanos a span on this ticker, in nanoseconds
     */
    long realNanos(long tickerNanos);

    /**
     * Whether the wall clock is the machine's own, which goes on while the machine sleeps, and may be set; made-up ones
     * run exactly like the monotonic clock, or stand still.
     */
    default boolean hasMachinesWallClock() {
        return false;
    }

    /** Time since the machine was started, in nanoseconds, sleep included; empty where the system does not tell. */
    default OptionalLong sinceBootNanos() {
        return OptionalLong.empty();
    }

    /** The machine's own clock. */
    static Ticker system() {
        return SystemTicker.INSTANCE;
    }

    /**
     * A clock that runs {@code speed} times as fast as this one from now on, for simulated and replayed sources.
     *
     * @param speed above 0; 1 returns this ticker itself
     */
    default Ticker scaled(double speed) {
        return speed == 1 ? this : new ScaledTicker(this, speed);
    }

    /** A clock that shows 0 now and runs like this one: the time of a session that starts now. */
    default Ticker fromZero() {
        return new ZeroedTicker(this);
    }

    /**
     * A clock that runs like this one but whose wall clock stands at a given instant: for sessions that must come out
     * the same.
     */
    default Ticker anchoredAt(Instant wall) {
        Ticker self = this;
        return new Ticker() {
            @Override
            public long nanos() {
                return self.nanos();
            }

            @Override
            public Instant wallClock() {
                return wall;
            }

            @Override
            public long realNanos(long tickerNanos) {
                return self.realNanos(tickerNanos);
            }
        };
    }
}
