package draftwitness.dashboard;

import java.util.concurrent.TimeUnit;

/** How much time the strips show. */
public enum SpanChoice {
    SECONDS_30(30),
    MINUTE_1(60),
    MINUTES_2(120),
    MINUTES_5(300),
    MINUTES_15(900),
    MINUTES_30(1800),
    HOUR_1(3600),
    /** The whole session. */
    ALL(0);

    private final long seconds;

    SpanChoice(long seconds) {
        this.seconds = seconds;
    }

    /** Length in nanoseconds; 0 for {@link #ALL}. */
    public long nanos() {
        return TimeUnit.SECONDS.toNanos(seconds);
    }

    public String label() {
        return Words.get("span." + name());
    }

    @Override
    public String toString() {
        return label();
    }
}
