/**
 * Reads a session as a technician would: which channels, which gaps, and what the furnace did.
 *
 * <p>In: a session's slices in order. Out: values for people and programs. Times in nanoseconds of session time,
 * pressures in pascal. Pure and streaming: no clock, no thread, no file; the same results however the session was cut.
 * Knows {@code reading}, {@code setup} and {@code signal}.
 */
@NullMarked
package draftwitness.cycle;

import org.jspecify.annotations.NullMarked;
