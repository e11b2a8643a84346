package draftwitness.app;

import draftwitness.app.cli.CommandLineProgram;

/** The program's entry. */
public final class Main {
    private Main() {}

    /** Runs one command and leaves with its exit code. */
    public static void main(String[] args) {
        Logs.toStandardError();
        int code = CommandLineProgram.run(args, System.out, System.err);
        System.out.flush();
        System.exit(code);
    }
}
