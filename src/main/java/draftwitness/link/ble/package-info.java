/**
 * Links to Bluetooth low energy devices, by BlueZ over the system's D-Bus; Linux only.
 *
 * <p>In: an address and the characteristics that are wanted. Out: each value as a chunk whose endpoint is the
 * characteristic's full UUID in lower case, stamped when its signal arrived; who is in reach. One thread reads a link;
 * D-Bus's own thread only stamps and queues. The D-Bus libraries stay inside, and none of them is loaded before a link
 * is opened or devices are looked for. Knows nothing of what the bytes mean.
 */
@NullMarked
package draftwitness.link.ble;

import org.jspecify.annotations.NullMarked;
