/**
 * Puts the rooms together: what a command needs is made, started from the consumers back to the links, and stopped the
 * other way.
 *
 * <p>In: command lines and clicks. Out: running sessions, files, exit codes. The only place that sees every room.
 * Standard output carries results; progress and messages go to standard error.
 */
@NullMarked
package draftwitness.app;

import org.jspecify.annotations.NullMarked;
