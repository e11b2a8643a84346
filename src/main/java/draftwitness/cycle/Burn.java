package draftwitness.cycle;

/**
 * One time that gas flowed.
 *
 * @param onNanos gas on
 * @param offNanos gas off, or the time reached
 * @param lit whether a flame was there
 * @param flameNanos when the flame was there, when a channel tells; else equal to {@code onNanos}
 * @param lightOffNanos when it lit, to take the light-off out of the margin
 * @param lasting whether gas still flowed at the end of what is known
 * @param flameWentFirst whether the flame was gone while gas still flowed
 */
record Burn(
        long onNanos,
        long offNanos,
        boolean lit,
        long flameNanos,
        long lightOffNanos,
        boolean lasting,
        boolean flameWentFirst) {}
