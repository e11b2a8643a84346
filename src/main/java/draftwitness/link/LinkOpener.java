package draftwitness.link;

import draftwitness.time.Ticker;

/** Opens links of one or more kinds. Any thread; may block for seconds. */
@FunctionalInterface
public interface LinkOpener {

    /**
     * Opens a link afresh.
     *
     * @param ticker the session's clock, used to stamp arrivals
     * @throws LinkException if it cannot be opened now
     */
    ByteLink open(LinkAddress address, Ticker ticker) throws LinkException;
}
