package draftwitness.cycle;

import org.jspecify.annotations.Nullable;

/**
 * What can be said at once, without judging a run again.
 *
 * @param atNanos session time looked at
 * @param known whether the detector has told idle from running yet
 * @param running whether the inducer runs
 * @param sinceNanos start of the run, or end of the last one
 * @param suctionMade suction against the set point, or null
 * @param contactMade the contact, or null
 * @param gasOn whether gas flows, as far as a channel tells
 * @param calling the call, or null
 * @param suctionPascals NaN if unknown
 */
record Glance(
        long atNanos,
        boolean known,
        boolean running,
        long sinceNanos,
        @Nullable Boolean suctionMade,
        @Nullable Boolean contactMade,
        boolean gasOn,
        @Nullable Boolean calling,
        double suctionPascals) {

    /** Whether the furnace does something else than in an earlier glance, so that it should be looked at closely. */
    boolean differs(Glance earlier) {
        return known != earlier.known
                || running != earlier.running
                || gasOn != earlier.gasOn
                || !java.util.Objects.equals(suctionMade, earlier.suctionMade)
                || !java.util.Objects.equals(contactMade, earlier.contactMade)
                || !java.util.Objects.equals(calling, earlier.calling);
    }
}
