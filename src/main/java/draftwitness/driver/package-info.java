/**
 * Turns an instrument's bytes into readings, as a TOML description or a Java plug-in says.
 *
 * <p>In: {@link draftwitness.reading.Chunk}s and overridden parameters. Out: named readings as decimal counts with
 * their unit, and named faults with the bytes they cost. No I/O, no clock, no thread: the capture thread owns every
 * decoder. Knows {@code reading} and {@code input}.
 */
@NullMarked
package draftwitness.driver;

import org.jspecify.annotations.NullMarked;
