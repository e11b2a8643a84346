/**
 * The command line: one class a command, thin over {@code app} and the rooms.
 *
 * <p>In: arguments. Out: exit code 0 done, 1 the work failed, 2 wrong usage or unreadable input with one clear line on
 * standard error. Results go to standard output alone. Runs on the main thread.
 */
@NullMarked
package draftwitness.app.cli;

import org.jspecify.annotations.NullMarked;
