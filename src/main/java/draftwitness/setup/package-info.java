/**
 * What a technician states about the appliance: ratings from its plate, sequence times, which source is on which tap.
 *
 * <p>In: a setup file (TOML). Out: an immutable {@link draftwitness.setup.Setup} with defaults filled in. Pressures are
 * pascal, times seconds. Any thread. Knows {@code reading} and {@code input}.
 */
@NullMarked
package draftwitness.setup;

import org.jspecify.annotations.NullMarked;
