/**
 * Numeric functions on plain numbers: smoothing, hysteresis, robust levels, spectra, fits.
 *
 * <p>In: {@code double} values or arrays, oldest first. Out: values. Units are the caller's; times in nanoseconds where
 * named so. Functions are pure; streaming classes have one owner thread and constant memory. Knows no other room, no
 * clock, no outside library.
 */
@NullMarked
package draftwitness.signal;

import org.jspecify.annotations.NullMarked;
