/**
 * Plays a recording as a session: the same slices as were recorded, at any speed, with pause and seek.
 *
 * <p>In: a {@link draftwitness.recording.RecordingFile}. Out: {@link draftwitness.reading.SessionListener} calls on one
 * thread of its own. Knows {@code reading}, {@code recording} and {@code time}; what is done with the slices it does
 * not know.
 */
@NullMarked
package draftwitness.replay;

import org.jspecify.annotations.NullMarked;
