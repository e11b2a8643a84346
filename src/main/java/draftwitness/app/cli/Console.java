package draftwitness.app.cli;

import java.io.PrintStream;

/**
 * Where a command writes.
 *
 * @param out results alone
 * @param err progress and messages
 */
record Console(PrintStream out, PrintStream err) {}
