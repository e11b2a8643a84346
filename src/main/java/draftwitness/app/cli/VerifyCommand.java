package draftwitness.app.cli;

import draftwitness.input.Durations;
import draftwitness.recording.Damage;
import draftwitness.recording.RecordingException;
import draftwitness.recording.Repair;
import draftwitness.recording.Thinned;
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
        console.out().println("evidence SHA-256 " + found.evidence() + " (notes do not change it)");
        if (!found.finished()) {
            console.out().println(UNFINISHED);
        }
        tellSpans(found);
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
        console.out().println(verdict(found));
        return 0;
    }

    /** What may follow is only as much as was found: an unfinished file without readings is not a good recording. */
    private static String verdict(Verification found) {
        boolean any = found.readings() > 0 || !found.thinned().isEmpty();
        if (found.finished()) {
            return any ? "intact" : "intact, but there is not one reading in it";
        }
        return any
                ? "intact as far as it goes"
                : "nothing is damaged, but nothing was recorded either: it ended before the first second was safe on the disk";
    }

    private void tellSpans(Verification found) {
        long readings = found.thinned().stream().mapToLong(Thinned::readings).sum();
        if (readings > 0) {
            console.out()
                    .println(readings
                            + " readings were thinned away while recording (--keep episodes); their overview is kept:");
        }
        for (Thinned span : found.thinned()) {
            console.out().println("thinned: from " + clock(span) + ", " + span.readings() + " readings");
        }
        for (Thinned span : found.lost()) {
            console.out().println("lost before it was repaired: from " + clock(span));
        }
    }

    private static String clock(Thinned span) {
        return Durations.clock(span.fromNanos()) + " to " + Durations.clock(span.toNanos());
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
                        + (done.notes() == 0 ? "" : ", notes too")
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
