/**
 * Reads what people wrote: TOML files with strict keys, {@code key=value} options, values with units.
 *
 * <p>In: text. Out: typed values, or {@link draftwitness.input.InputException} with one clear line that says where and
 * what. Pure but for reading the named file; any thread. Knows {@code reading} only, and keeps the TOML library to
 * itself.
 */
@NullMarked
package draftwitness.input;

import org.jspecify.annotations.NullMarked;
