package draftwitness.time;

import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.OptionalLong;

/**
 * A clock that goes on while the computer sleeps. A computer's monotonic clock stands still meanwhile; a session by it
 * would have no gap where a night is missing. Any thread.
 *
 * <p>How it works: each time that it is asked, it compares the monotonic clock with the wall clock. When they part by
 * more than {@value #LEAST_SECONDS} s, the time since the computer was started, which counts sleep, tells why: if that
 * has parted from the monotonic clock alike, the computer slept, and the clock jumps ahead by so much; if not, the wall
 * clock was set, and nothing jumps. Where the time since the start is not known the reason stays open, and nothing
 * jumps. Each case is told once by {@link #takeJumps}. Made-up wall clocks are not looked at.
 */
public final class AwakeTicker implements Ticker {
    private static final int LEAST_SECONDS = 2;
    private static final long LEAST_NANOS = LEAST_SECONDS * 1_000_000_000L;

    private final Ticker base;
    private final List<Jump> jumps = new ArrayList<>();
    private long sleptNanos;
    private long wallOffset;
    private long bootOffset;

    /**
     * A clock that shows what another shows, until the computer sleeps.
     *
     * @param base the machine's clock, or one made from it
     */
    public AwakeTicker(Ticker base) {
        this.base = base;
        long now = base.nanos();
        wallOffset = wallNanos(base.wallClock()) - now;
        bootOffset = bootOffset(now, 0);
    }

    /** Why the clocks parted. */
    public enum Why {
        /** The computer slept. */
        SLEPT,
        /** The wall clock was set. */
        SET,
        /** One or the other. */
        UNKNOWN
    }

    /**
     * The clocks parted.
     *
     * @param why as far as it is known
     * @param atNanos this clock's time when it was noticed, before it jumped
     * @param jumpedNanos by how much this clock jumped ahead; 0 unless the computer slept
     * @param expected what the wall clock would have shown
     * @param shown what it showed
     */
    public record Jump(Why why, long atNanos, long jumpedNanos, Instant expected, Instant shown) {
        /** By how much the wall clock was ahead of what was expected; negative if behind. */
        public Duration ahead() {
            return Duration.between(expected, shown);
        }
    }

    @Override
    public synchronized long nanos() {
        long now = base.nanos();
        if (!base.hasMachinesWallClock()) {
            return now;
        }
        Instant shown = base.wallClock();
        long parted = wallNanos(shown) - now - wallOffset;
        if (Math.abs(parted) > LEAST_NANOS) {
            noteJump(now, parted, shown);
        }
        return now + sleptNanos;
    }

    private void noteJump(long now, long parted, Instant shown) {
        long boot = bootOffset(now, bootOffset);
        long slept = boot - bootOffset;
        boolean known = base.sinceBootNanos().isPresent();
        boolean asleep = known && slept > LEAST_NANOS;
        Why why = asleep ? Why.SLEPT : known ? Why.SET : Why.UNKNOWN;
        jumps.add(new Jump(why, now + sleptNanos, asleep ? slept : 0, shown.minusNanos(parted), shown));
        if (asleep) {
            sleptNanos += slept;
        }
        wallOffset += parted;
        bootOffset = boot;
    }

    private long bootOffset(long now, long otherwise) {
        OptionalLong boot = base.sinceBootNanos();
        return boot.isPresent() ? boot.getAsLong() - now : otherwise;
    }

    private static long wallNanos(Instant wall) {
        return wall.getEpochSecond() * 1_000_000_000L + wall.getNano();
    }

    /** What has happened since the last time, oldest first. */
    public synchronized List<Jump> takeJumps() {
        List<Jump> taken = List.copyOf(jumps);
        jumps.clear();
        return taken;
    }

    @Override
    public Instant wallClock() {
        return base.wallClock();
    }

    @Override
    public long realNanos(long tickerNanos) {
        return base.realNanos(tickerNanos);
    }

    @Override
    public boolean hasMachinesWallClock() {
        return base.hasMachinesWallClock();
    }

    @Override
    public OptionalLong sinceBootNanos() {
        return base.sinceBootNanos();
    }
}
