package draftwitness.app.cli;

import picocli.CommandLine.Option;

/** The option that takes zeros before all else: shared by the commands that show or record sources as text. */
final class ZeroOption {
    @Option(
            names = "--zero-first",
            description = "First takes the zero of every pressure tap: leave both ports of every instrument open to air"
                    + " for 5 s. A steady zero is taken off from then on and kept with the recording, whose readings"
                    + " stay as they came.")
    private boolean first;

    boolean first() {
        return first;
    }
}
