/**
 * Guided measurements: short tests that a person is walked through, judged from readings alone.
 *
 * <p>In: a session's slices, live or from a span of a recording, and the plate. Out: figures while it runs, a verdict
 * with its uncertainty, a result to keep. Pressures in pascal, signed, suction negative; times in nanoseconds of
 * session time. Pure and streaming, one owner thread. Knows {@code reading}, {@code setup}, {@code signal} and
 * {@code diagnosis}; no clock, no screen, no file.
 */
@NullMarked
package draftwitness.diagnosis.guided;

import org.jspecify.annotations.NullMarked;
