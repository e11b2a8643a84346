/**
 * Byte links to instruments: serial ports, TCP, files; opening, reading, and knowing when one is gone.
 *
 * <p>In: a {@link draftwitness.link.LinkAddress}. Out: {@link draftwitness.reading.Chunk}s stamped on arrival from the
 * session's ticker. One thread reads a link; {@code close} may come from any thread. Knows {@code reading},
 * {@code input} and {@code time}; nothing of what the bytes mean. The serial library stays inside.
 */
@NullMarked
package draftwitness.link;

import org.jspecify.annotations.NullMarked;
