package draftwitness.recording;

/** What a finished recording says about its end, under the key {@code finished}. */
final class EndMark {
    private EndMark() {}

    /**
     * The mark's text.
     *
     * @param readings how many were recorded, thinned ones included
     * @param endCell number after the last cell's, 0 without rows
     */
    static String text(long endCell, long readings, long events) {
        return endCell + " " + readings + " " + events;
    }
}
