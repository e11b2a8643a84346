package draftwitness.link;

import draftwitness.time.Ticker;

/** Opens links of one or more kinds. Any thread; may block for seconds. */
@FunctionalInterface
public interface LinkOpener {

    /**
     * Opens a link afresh.
     *
     * @param needs what to get from the instrument; plain byte streams give all there is
     * @param ticker the session's clock, used to stamp arrivals
     * @throws LinkException if it cannot be opened now; also when the thread is interrupted, which stays so
     */
    ByteLink open(LinkAddress address, LinkNeeds needs, Ticker ticker) throws LinkException;

    /** Opens a link for all there is. */
    default ByteLink open(LinkAddress address, Ticker ticker) throws LinkException {
        return open(address, LinkNeeds.BYTES, ticker);
    }
}
