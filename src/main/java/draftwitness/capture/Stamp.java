package draftwitness.capture;

import draftwitness.reading.Block;

/**
 * When a reading was taken, and what is known about that.
 *
 * @param timeNanos session time of the reading
 * @param arrivalNanos session time at which its last byte arrived
 * @param isComputed whether the time is a computed sample time and not the arrival
 * @param counter the instrument's own message counter, or {@link Block#NO_COUNTER}
 */
record Stamp(long timeNanos, long arrivalNanos, boolean isComputed, long counter) {
    /** A reading whose time is its arrival. */
    static Stamp arrived(long arrivalNanos, long counter) {
        return new Stamp(arrivalNanos, arrivalNanos, false, counter);
    }
}
