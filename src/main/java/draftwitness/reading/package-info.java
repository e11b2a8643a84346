/**
 * The words that every other room shares: quantities and units, taps, channels, blocks of readings, slices of a
 * session.
 *
 * <p>In: nothing. Out: immutable facts. Pressures are pascal, signed, suction negative; times are nanoseconds from the
 * session's start. Everything here may be used from any thread. Knows no other room and no outside library.
 */
@NullMarked
package draftwitness.reading;

import org.jspecify.annotations.NullMarked;
