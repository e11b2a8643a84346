package draftwitness.app.cli;

import draftwitness.app.StopSignal;
import java.io.PrintStream;

/**
 * Where a command writes, and how it hears that it should stop.
 *
 * @param out results alone
 * @param err progress and messages
 * @param stop of this run of the program
 */
record Console(PrintStream out, PrintStream err, StopSignal stop) {}
