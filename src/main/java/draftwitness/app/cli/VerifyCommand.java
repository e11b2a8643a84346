package draftwitness.app.cli;

import draftwitness.input.Durations;
import draftwitness.recording.Damage;
import draftwitness.recording.RecordingException;
import draftwitness.recording.Verification;
import draftwitness.recording.Verifier;
import java.nio.file.Path;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Parameters;

/** {@code verify}: whether a recording is whole. */
@Command(
        name = "verify",
        mixinStandardHelpOptions = true,
        description =
                "Checks a recording: every block's checksum, order, counts; says what is good and what is damaged."
                        + " Exit code 1 when something is damaged.")
final class VerifyCommand implements Callable<Integer> {
    private final Console console;

    @Parameters(paramLabel = "FILE", description = "The recording (.dwrec).")
    @SuppressWarnings("NullAway.Init") // required: set before call()
    private Path file;

    VerifyCommand(Console console) {
        this.console = console;
    }

    @Override
    public Integer call() throws Exception {
        Verification found;
        try {
            found = Verifier.verify(file);
        } catch (RecordingException e) {
            throw RecordingErrors.whenReading(e);
        }
        console.out()
                .println(file + ": " + found.readings() + " readings in " + found.rows() + " blocks are good, from "
                        + Durations.clock(found.firstNanos()) + " to " + Durations.clock(found.endNanos()));
        if (!found.finished()) {
            console.out().println("it was not closed in good order: recording goes on, or ended with a crash");
        }
        for (Damage damage : found.damages()) {
            console.out().println("damaged: " + damage.text());
        }
        if (!found.intact()) {
            console.err()
                    .println("draftwitness: " + file + " is damaged in "
                            + found.damages().size() + " places; everything else in it can still be read");
            return CommandLineProgram.FAILED;
        }
        console.out().println("intact");
        return 0;
    }
}
