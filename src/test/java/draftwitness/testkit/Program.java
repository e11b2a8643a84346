package draftwitness.testkit;

import draftwitness.app.cli.CommandLineProgram;
import java.io.ByteArrayOutputStream;
import java.io.File;
import java.io.IOException;
import java.io.PrintStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;

/**
 * The whole program, run as a person would: in this JVM for its exit codes and words, in a JVM of its own to be killed.
 */
public final class Program {
    private Program() {}

    /**
     * What a command left behind.
     *
     * @param code exit code
     * @param out standard output
     * @param err standard error
     */
    public record Result(int code, String out, String err) {
        /** Lines of standard error that begin with the program's name: what went wrong. */
        public List<String> complaints() {
            return err.lines().filter(l -> l.startsWith("draftwitness: ")).toList();
        }
    }

    /** Runs a command in this JVM. */
    public static Result run(String... args) {
        ByteArrayOutputStream out = new ByteArrayOutputStream();
        ByteArrayOutputStream err = new ByteArrayOutputStream();
        int code = CommandLineProgram.run(
                args,
                new PrintStream(out, true, StandardCharsets.UTF_8),
                new PrintStream(err, true, StandardCharsets.UTF_8));
        return new Result(code, out.toString(StandardCharsets.UTF_8), err.toString(StandardCharsets.UTF_8));
    }

    /** The words that start the program in a JVM of its own, to be put behind other words if need be. */
    public static List<String> command(String... args) {
        List<String> words = new ArrayList<>();
        words.add(Path.of(System.getProperty("java.home"), "bin", "java").toString());
        words.addAll(List.of("-Xmx256m", "-XX:TieredStopAtLevel=1", "-Djava.awt.headless=true"));
        words.addAll(List.of("-cp", System.getProperty("java.class.path"), "draftwitness.app.Main"));
        words.addAll(List.of(args));
        return words;
    }

    /** Starts the program in a JVM of its own. */
    public static Process start(Path errors, List<String> words) throws IOException {
        return new ProcessBuilder(words)
                .redirectError(errors.toFile())
                .redirectOutput(ProcessBuilder.Redirect.to(new File("/dev/null")))
                .start();
    }
}
