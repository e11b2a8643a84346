package draftwitness.diagnosis.guided;

/** How a measurement came out; in rising order of concern. */
public enum Grade {
    /** There is nothing to judge by, such as a rating that was not entered. */
    UNJUDGED,
    /** As it should be. */
    FINE,
    /** The uncertainty is too large to tell, or the readings do not fit the test. */
    UNDECIDED,
    /** Off, but not plainly wrong. */
    ATTENTION,
    /** Plainly not as it should be. */
    FAULT;

    Grade worse(Grade other) {
        return compareTo(other) >= 0 ? this : other;
    }
}
