/**
 * A gas furnace that behaves: flow, heat, gas and burner control in closed loop, as a source of readings with known
 * truth.
 *
 * <p>In: a scenario (TOML) and a seed. Out: readings of simulated instruments, and the truth as JSON text. SI units
 * throughout; pressures are pascal, signed, suction negative. Pure and single-threaded: no clock, no file written; the
 * same seed gives the same readings. Knows {@code reading} and {@code input} only.
 */
@NullMarked
package draftwitness.furnace;

import org.jspecify.annotations.NullMarked;
