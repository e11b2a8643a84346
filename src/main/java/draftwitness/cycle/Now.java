package draftwitness.cycle;

import org.jspecify.annotations.Nullable;

/**
 * Where the furnace stands, as far as a session's readings tell so far. Immutable; for any thread.
 *
 * <p>What is said here is provisional: a light-off that only the draft shows is known some seconds later, and a start
 * is one only when it lasts. All times are nanoseconds of session time. Pressures are pascal, suction positive.
 *
 * @param atNanos session time up to which readings were looked at; about a second behind the newest reading
 * @param phase where in the sequence; null before the first look and when no channel can tell
 * @param sinceNanos when that phase began; {@code atNanos} when it is not known
 * @param cycle index of the cycle that goes on, or of the one that led to a lockout; 0 in standby
 * @param attempt which start of ignition in that cycle, from 1; 0 in standby
 * @param inducerRuns whether suction says that the inducer runs
 * @param suctionMade whether suction is at or beyond the set point (with the switch's differential); null without a set
 *     point or without a draft at the switch
 * @param contactMade the measured contact's state; null without one, or before it was read
 * @param suctionPascals suction now at the switch (else at the channel that tells runs), zero taken off; NaN if unknown
 * @param next what comes next by the usual sequence, or null when nothing can be foretold
 * @param lockedOutSinceNanos when the control gave up, or null when it has not
 */
public record Now(
        long atNanos,
        @Nullable Phase phase,
        long sinceNanos,
        int cycle,
        int attempt,
        boolean inducerRuns,
        @Nullable Boolean suctionMade,
        @Nullable Boolean contactMade,
        double suctionPascals,
        @Nullable Next next,
        @Nullable Long lockedOutSinceNanos) {

    /**
     * What comes next if all goes as usual.
     *
     * @param phase the phase that follows
     * @param expectedNanos when it should begin: from the session's own finished cycles once there were some, else from
     *     the setup's times; null when neither tells
     * @param latestNanos when the control gives up waiting for it, by the setup; null when there is no such limit
     * @param learnt whether {@code expectedNanos} comes from the session's own cycles
     */
    public record Next(
            Phase phase,
            @Nullable Long expectedNanos,
            @Nullable Long latestNanos,
            boolean learnt) {}

    /** Before anything was read. */
    static Now nothing() {
        return new Now(0, null, 0, 0, 0, false, null, null, Double.NaN, null, null);
    }

    /** Whether all attempts were used up and nothing moved since. */
    public boolean lockedOut() {
        return lockedOutSinceNanos != null;
    }
}
