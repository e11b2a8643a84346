/**
 * The recording file ({@code .dwrec}): writing it as a session goes, reading any part of it, checking it, and carrying
 * readings to and from tables.
 *
 * <p>In: slices of a session, or a table. Out: the same slices, series, or a table. Values stay whole counts of the
 * instrument's step; times are nanoseconds from the session's start. Each object has one owner thread unless it says
 * otherwise. Knows {@code reading}, {@code input} and {@code time}; keeps the database library to itself and knows
 * nothing of where slices come from or who looks at them.
 */
@NullMarked
package draftwitness.recording;

import org.jspecify.annotations.NullMarked;
