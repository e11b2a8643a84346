/**
 * Hands a session on to other programs: an MQTT 5 broker, lines of JSON on a stream or a TCP port; and follows one from
 * elsewhere.
 *
 * <p>In: {@link draftwitness.reading.SessionListener} calls. Out: messages of the open schema in docs/bridge.md;
 * pressures in the unit that the instrument sent, times in seconds from the session's start. Threads: {@code bridge}
 * for the broker, {@code ndjson-<n>} for each TCP listener; the session's own thread only queues. Must not know links,
 * recordings or the screen.
 */
@NullMarked
package draftwitness.bridge;

import org.jspecify.annotations.NullMarked;
