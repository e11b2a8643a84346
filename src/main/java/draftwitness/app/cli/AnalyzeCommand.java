package draftwitness.app.cli;

import draftwitness.app.Judged;
import draftwitness.app.KeptSetup;
import draftwitness.app.NotedAnswers;
import draftwitness.app.ZeroWords;
import draftwitness.diagnosis.Diagnosis;
import draftwitness.diagnosis.DiagnosisReport;
import draftwitness.input.InputException;
import draftwitness.reading.Zeros;
import draftwitness.recording.RecordingException;
import draftwitness.recording.RecordingFile;
import draftwitness.report.AnalysisJson;
import draftwitness.report.AnalysisText;
import draftwitness.setup.Setup;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.Callable;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

/** {@code analyze}: what recordings hold, and what the furnace did in them. */
@Command(
        name = "analyze",
        mixinStandardHelpOptions = true,
        description =
                "Tells what recordings hold: channels and gaps, heating cycles, margins, episodes, findings, what is"
                        + " likely wrong and what to check next."
                        + " Several files are read at once; results come in the order given.")
final class AnalyzeCommand implements Callable<Integer> {
    private final Console console;

    @Parameters(arity = "1..*", paramLabel = "FILE", description = "Recordings (.dwrec).")
    private List<Path> files = new ArrayList<>();

    @Option(names = "--json", description = "One JSON object a file, one line each.")
    private boolean json;

    @Option(
            names = "--setup",
            paramLabel = "FILE",
            description = "Setup file (TOML) to use instead of the one kept with the recordings.")
    private @Nullable Path setupFile;

    @Option(
            names = "--raw",
            description =
                    "Readings as the instruments wrote them, without the zeros taken off that were kept with them.")
    private boolean raw;

    AnalyzeCommand(Console console) {
        this.console = console;
    }

    /** What one file gave: a result to print, or why there is none. */
    private record Result(String text, @Nullable RecordingException failure) {}

    @Override
    public Integer call() throws Exception {
        Setup given = setupFile == null ? null : Setup.read(setupFile);
        int code = 0;
        int threads = Math.min(files.size(), Runtime.getRuntime().availableProcessors());
        ExecutorService readers = Executors.newFixedThreadPool(threads);
        try {
            List<Future<Result>> results = new ArrayList<>();
            for (Path file : files) {
                results.add(readers.submit(() -> result(file, given)));
            }
            for (int i = 0; i < files.size(); i++) {
                code = Math.max(code, print(files.get(i), results.get(i).get()));
                if (files.size() > 1) {
                    console.err().println("analysed " + (i + 1) + " of " + files.size() + ": " + files.get(i));
                }
            }
        } finally {
            readers.shutdownNow();
        }
        return code;
    }

    private int print(Path file, Result result) throws Exception {
        RecordingException failure = result.failure();
        if (failure == null) {
            console.out().println(result.text());
            return 0;
        }
        if (files.size() == 1) {
            throw RecordingErrors.whenReading(failure);
        }
        if (json) {
            console.out().println(AnalysisJson.error(file.toString(), String.valueOf(failure.getMessage())));
        }
        console.err().println("draftwitness: " + failure.getMessage());
        return CommandLineProgram.FAILED;
    }

    private Result result(Path file, @Nullable Setup given) {
        try (RecordingFile recording = RecordingFile.open(file)) {
            Setup setup = given != null ? given : kept(recording);
            ThinnedWords.tell(recording, console.err());
            Zeros zeros = raw ? new Zeros() : recording.zeros();
            Judged judged = Judged.of(recording, setup, zeros, nanos -> true);
            DiagnosisReport diagnosis =
                    Diagnosis.of(recording.header().channels(), setup, judged.cycles(), NotedAnswers.of(file));
            return new Result(
                    json
                            ? AnalysisJson.of(file.toString(), judged.summary(), judged.cycles(), diagnosis)
                            : AnalysisText.of(file.toString(), judged.summary(), judged.cycles(), diagnosis)
                                    + zeros(zeros),
                    null);
        } catch (RecordingException e) {
            return new Result("", e);
        }
    }

    private static String zeros(Zeros zeros) {
        return ZeroWords.lines(zeros).stream().map(line -> "\n" + line).collect(Collectors.joining());
    }

    private Setup kept(RecordingFile recording) {
        try {
            return KeptSetup.of(recording);
        } catch (InputException e) {
            console.err()
                    .println("draftwitness: " + e.getMessage()
                            + "; going on with defaults, give --setup FILE to correct");
            return Setup.defaults();
        }
    }
}
