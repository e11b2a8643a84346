package draftwitness.app.cli;

import draftwitness.app.StopSignal;
import draftwitness.input.InputException;
import draftwitness.input.Spelling;
import java.io.PrintStream;
import java.io.PrintWriter;
import java.nio.charset.StandardCharsets;
import picocli.CommandLine;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.UnmatchedArgumentException;

/** Runs one command line and turns every failure into one clear line and an exit code. */
public final class CommandLineProgram {
    /** The work failed. */
    static final int FAILED = 1;

    /** Wrong usage or unreadable input. */
    static final int BAD_INPUT = 2;

    private CommandLineProgram() {}

    /**
     * Runs a command.
     *
     * @param out results
     * @param err progress and messages
     * @return 0 done, 1 the work failed, 2 wrong usage or unreadable input
     */
    public static int run(String[] args, PrintStream out, PrintStream err) {
        try (StopSignal stop = new StopSignal()) {
            int code = run(args, new Console(out, err, stop));
            out.flush();
            err.flush();
            stop.finished(code);
            return code;
        }
    }

    private static int run(String[] args, Console console) {
        PrintStream out = console.out();
        PrintStream err = console.err();
        CommandLine program = new CommandLine(new RootCommand(console), new CommandFactory(console));
        program.setOut(new PrintWriter(out, true, StandardCharsets.UTF_8));
        program.setErr(new PrintWriter(err, true, StandardCharsets.UTF_8));
        program.setUsageHelpAutoWidth(true);
        program.setParameterExceptionHandler((e, given) -> wrongUsage(e, err));
        program.setExecutionExceptionHandler((e, command, result) -> failed(e, err));
        return program.execute(opensRecording(args) ? new String[] {"replay", args[0]} : args);
    }

    /** A recording alone, as a file manager hands it over, is looked at. */
    private static boolean opensRecording(String[] args) {
        return args.length == 1 && args[0].endsWith(".dwrec") && !args[0].startsWith("-");
    }

    private static int wrongUsage(ParameterException e, PrintStream err) {
        String message = String.valueOf(e.getMessage()).lines().findFirst().orElse("");
        err.println("draftwitness: " + message + hint(e) + " (try: "
                + e.getCommandLine().getCommandSpec().qualifiedName() + " --help)");
        return BAD_INPUT;
    }

    /** What a misspelt command or option may have been meant to be. */
    private static String hint(ParameterException e) {
        if (!(e instanceof UnmatchedArgumentException unmatched)
                || unmatched.getUnmatched().isEmpty()) {
            return "";
        }
        CommandSpec command = e.getCommandLine().getCommandSpec();
        String word = unmatched.getUnmatched().get(0);
        return Spelling.hint(
                word,
                word.startsWith("-")
                        ? command.optionsMap().keySet()
                        : command.subcommands().keySet());
    }

    private static int failed(Exception e, PrintStream err) throws Exception {
        if (e instanceof InputException) {
            err.println("draftwitness: " + e.getMessage());
            return BAD_INPUT;
        }
        if (e instanceof WorkFailedException) {
            err.println("draftwitness: " + e.getMessage());
            return FAILED;
        }
        err.println("draftwitness: failed unexpectedly (" + e + "); please report this with what follows");
        e.printStackTrace(err);
        return FAILED;
    }
}
