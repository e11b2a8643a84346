package draftwitness.app.cli;

import draftwitness.input.Durations;
import draftwitness.recording.Damage;
import draftwitness.recording.RecordingException;
import draftwitness.recording.Repair;
import draftwitness.recording.Verification;
import draftwitness.recording.Verifier;
import java.nio.file.Path;
import java.util.concurrent.Callable;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

/** {@code verify}: whether a recording is whole. */
@Command(
        name = "verify",
        mixinStandardHelpOptions = true,
        description =
                "Checks a recording: every block's checksum, order, counts; says what is good and what is damaged."
                        + " Exit code 1 when something is damaged.")
final class VerifyCommand implements Callable<Integer> {
    private static final String UNFINISHED =
            "it was not closed in good order: recording goes on, or ended with a crash."
                    + " Until it is closed, the file and the one beside it that ends in -wal belong together; '--repair OUT.dwrec' makes"
                    + " one file of them";

    private final Console console;

    @Parameters(paramLabel = "FILE", description = "The recording (.dwrec).")
    @SuppressWarnings("NullAway.Init") // required: set before call()
    private Path file;

    @Option(
            names = "--repair",
            paramLabel = "OUT",
            description = "Saves all that is good into a new recording; FILE stays as it is.")
    private @Nullable Path repaired;

    VerifyCommand(Console console) {
        this.console = console;
    }

    @Override
    public Integer call() throws Exception {
        Verification found;
        try {
            found = Verifier.verify(file);
            if (repaired != null) {
                return repair(repaired);
            }
        } catch (RecordingException e) {
            throw e.file().equals(file) ? RecordingErrors.whenReading(e) : RecordingErrors.whenWriting(e);
        }
        console.out()
                .println(file + ": " + found.readings() + " readings in " + found.rows() + " blocks are good, from "
                        + Durations.clock(found.firstNanos()) + " to " + Durations.clock(found.endNanos()));
        if (!found.finished()) {
            console.out().println(UNFINISHED);
        }
        for (Damage damage : found.damages()) {
            console.out().println("damaged: " + damage.text() + where(damage));
        }
        if (!found.intact()) {
            console.err()
                    .println("draftwitness: " + file + " is damaged in "
                            + places(found.damages().size()) + "; 'verify " + file
                            + " --repair OUT.dwrec' saves what is good into a new recording");
            return CommandLineProgram.FAILED;
        }
        console.out().println("intact");
        return 0;
    }

    private static String where(Damage damage) {
        return damage.toNanos() > damage.fromNanos()
                ? " (from " + Durations.clock(damage.fromNanos()) + " to " + Durations.clock(damage.toNanos()) + ")"
                : "";
    }

    private static String places(int n) {
        return n == 1 ? "one place" : n + " places";
    }

    private int repair(Path out) throws RecordingException {
        Repair done = Repair.run(file, out);
        console.out()
                .println(out + ": " + done.readings() + " readings and " + done.events() + " events saved"
                        + (done.lost().isEmpty() ? ", nothing was lost between them" : ""));
        for (Damage lost : done.lost()) {
            console.out().println("lost: " + lost.text() + where(lost));
        }
        if (!done.headerIntact()) {
            console.out().println("the header's checksum is wrong; title, setup and names may be too");
        }
        return 0;
    }
}
