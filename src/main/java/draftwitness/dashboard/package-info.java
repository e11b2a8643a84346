/**
 * What is on the screen, without the screen: series kept for drawing, what the lanes say, the commands.
 *
 * <p>In: slices of a session, live or replayed; windows of an opened recording. Out: immutable snapshots with texts
 * already formatted, min/max columns, and the interfaces that the program behind the window fills in. Values are in
 * base units (pascal, suction negative), times nanoseconds from the session's start. {@code SessionModel} is fed by the
 * pipeline thread; everything else belongs to the user-interface thread. Knows no Swing, no chart library, no files.
 */
@NullMarked
package draftwitness.dashboard;

import org.jspecify.annotations.NullMarked;
