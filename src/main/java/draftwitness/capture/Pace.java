package draftwitness.capture;

/**
 * How fast one source may be read, so that one that floods takes neither the machine nor the memory from the others.
 * Pure; one owner thread.
 *
 * <p>No more than {@value #BYTES_A_SECOND} bytes a second (ten times what a serial line of 4 Mbaud brings), and no
 * readings whose times would run ahead of the clock, as they do when there are more of them than steps of time. What is
 * not read yet waits where it is: the sender is slowed down, or loses bytes in a buffer that is not ours.
 */
final class Pace {
    static final long BYTES_A_SECOND = 4_000_000;

    /** Readings may be this far ahead of the clock: more is a flood. */
    static final long AHEAD_NANOS = 200_000_000;

    /** Held back for so long without having caught up, a source is said to flood. */
    static final long FLOOD_NANOS = 2_000_000_000L;

    private static final long NEVER = Long.MIN_VALUE;

    private double allowance = BYTES_A_SECOND;
    private long refilledNanos = NEVER;
    private long heldSinceNanos = NEVER;

    /** Bytes were taken. */
    void took(int bytes) {
        allowance -= bytes;
    }

    /**
     * Whether the next bytes may be taken now.
     *
     * @param newestNanos time of the source's newest reading; {@link Long#MIN_VALUE} for none
     */
    boolean mayTake(long nowNanos, long newestNanos) {
        if (refilledNanos != NEVER) {
            double grown = allowance + (nowNanos - refilledNanos) / 1e9 * BYTES_A_SECOND;
            allowance = Math.min(BYTES_A_SECOND, grown);
        }
        refilledNanos = nowNanos;
        boolean may = allowance > 0 && newestNanos <= nowNanos + AHEAD_NANOS;
        if (!may && heldSinceNanos == NEVER) {
            heldSinceNanos = nowNanos;
        }
        return may;
    }

    /** Nothing is waiting to be taken. */
    void caughtUp() {
        heldSinceNanos = NEVER;
    }

    /** Whether the source has been sending too much for a while. */
    boolean isFlooded(long nowNanos) {
        return heldSinceNanos != NEVER && nowNanos - heldSinceNanos > FLOOD_NANOS;
    }
}
