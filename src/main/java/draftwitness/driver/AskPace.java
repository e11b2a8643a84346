package draftwitness.driver;

/**
 * The times that asking goes by, in nanoseconds.
 *
 * @param period from the start of one round of questions to the next
 * @param timeout how long an answer may take
 * @param quiet how long the line must be quiet after a failure, and after opening, before the next question
 */
record AskPace(long period, long timeout, long quiet) {

    /** Nanoseconds of so many seconds. */
    static long nanos(double seconds) {
        return Math.round(seconds * 1e9);
    }
}
