package draftwitness.app.cli;

import draftwitness.app.Judged;
import draftwitness.app.KeptSetup;
import draftwitness.app.NotedAnswers;
import draftwitness.app.StopSignal;
import draftwitness.diagnosis.Diagnosis;
import draftwitness.input.InputException;
import draftwitness.recording.RecordingException;
import draftwitness.recording.RecordingFile;
import draftwitness.report.SurveyRow;
import draftwitness.report.SurveyTable;
import draftwitness.setup.Setup;
import java.io.BufferedWriter;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.nio.file.StandardOpenOption;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.TreeSet;
import java.util.concurrent.Callable;
import java.util.concurrent.CompletionService;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.ExecutorCompletionService;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import java.util.concurrent.TimeUnit;
import java.util.stream.Stream;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

/** {@code survey}: many recordings, one table. */
@Command(
        name = "survey",
        mixinStandardHelpOptions = true,
        description =
                "Judges all recordings in folders and makes one table of them: sites, outcomes, margins, likely causes."
                        + " What was judged before and has not changed is taken over from the table of last time, also from one that"
                        + " was broken off.")
final class SurveyCommand implements Callable<Integer> {
    private static final long LOOK_MILLIS = 100;

    private final Console console;

    @Parameters(arity = "1..*", paramLabel = "FOLDER|FILE", description = "Folders, with those in them, or recordings.")
    private List<Path> places = new ArrayList<>();

    @Option(
            names = "--out",
            required = true,
            paramLabel = "FILE",
            description = "The table: .csv, or .html (then a .csv of the same name is kept beside it).")
    @SuppressWarnings("NullAway.Init") // required: set before call()
    private Path out;

    SurveyCommand(Console console) {
        this.console = console;
    }

    @Override
    public Integer call() throws Exception {
        String name = out.toString();
        boolean html = name.endsWith(".html");
        if (!html && !name.endsWith(".csv")) {
            throw new InputException(out + ": a survey's name ends in .csv or .html");
        }
        Path csv = html ? Path.of(name.substring(0, name.length() - 5) + ".csv") : out;
        List<Path> files = recordings();
        try {
            List<SurveyRow> rows = judge(files, csv);
            if (rows.size() < files.size()) {
                console.err()
                        .println("stopped after " + rows.size() + " of " + files.size()
                                + " recordings; the same command goes on from here");
                return CommandLineProgram.FAILED;
            }
            if (html) {
                Files.writeString(out, SurveyTable.html(rows));
            }
            long bad = rows.stream().filter(r -> !r.cell("error").isEmpty()).count();
            console.err()
                    .println("surveyed " + rows.size() + " recordings into " + out
                            + (bad == 0 ? "" : "; " + bad + " cannot be read, see the column error"));
            return bad == 0 ? 0 : CommandLineProgram.FAILED;
        } catch (IOException e) {
            throw new WorkFailedException(out + ": the table cannot be written (" + e.getMessage() + ")", e);
        }
    }

    private List<Path> recordings() throws InputException {
        TreeSet<Path> found = new TreeSet<>();
        for (Path place : places) {
            if (Files.isRegularFile(place)) {
                found.add(place);
                continue;
            }
            try (Stream<Path> all = Files.walk(place)) {
                all.filter(p -> p.toString().endsWith(".dwrec") && Files.isRegularFile(p))
                        .forEach(found::add);
            } catch (IOException | java.io.UncheckedIOException e) {
                throw new InputException(place + ": no such folder, or it cannot be read", e);
            }
        }
        if (found.isEmpty()) {
            throw new InputException("no recording (.dwrec) in " + places);
        }
        return List.copyOf(found);
    }

    /** Judges what must be judged; each line is on the disk as soon as it is known. */
    private List<SurveyRow> judge(List<Path> files, Path csv) throws IOException, InterruptedException {
        Path part = csv.resolveSibling(csv.getFileName() + ".part");
        Map<String, SurveyRow> known = new HashMap<>(known(csv));
        known.putAll(known(part));
        Map<Path, SurveyRow> rows = new HashMap<>();
        ExecutorService workers =
                Executors.newFixedThreadPool(Runtime.getRuntime().availableProcessors());
        try (BufferedWriter to = Files.newBufferedWriter(
                part, StandardOpenOption.CREATE, StandardOpenOption.TRUNCATE_EXISTING, StandardOpenOption.WRITE)) {
            line(to, SurveyTable.csvHeading());
            CompletionService<SurveyRow> work = new ExecutorCompletionService<>(workers);
            int open = 0;
            for (Path file : files) {
                SurveyRow before = known.get(file.toString());
                if (before != null
                        && before.cell("bytes").equals(bytes(file))
                        && before.cell("modified").equals(modified(file))) {
                    rows.put(file, before);
                    line(to, SurveyTable.csv(before));
                } else {
                    work.submit(() -> row(file));
                    open++;
                }
            }
            collect(work, open, files.size(), rows, to);
        } finally {
            workers.shutdownNow();
        }
        List<SurveyRow> ordered =
                files.stream().filter(rows::containsKey).map(rows::get).toList();
        if (ordered.size() == files.size()) {
            List<String> lines = new ArrayList<>(List.of(SurveyTable.csvHeading()));
            ordered.forEach(r -> lines.add(SurveyTable.csv(r)));
            Files.write(part, lines);
            Files.move(part, csv, StandardCopyOption.REPLACE_EXISTING);
        }
        return ordered;
    }

    private void collect(
            CompletionService<SurveyRow> work, int open, int all, Map<Path, SurveyRow> rows, BufferedWriter to)
            throws IOException, InterruptedException {
        StopSignal stop = console.stop();
        stop.attend();
        int left = open;
        while (left > 0 && !stop.await(0, TimeUnit.MILLISECONDS)) {
            Future<SurveyRow> done = work.poll(LOOK_MILLIS, TimeUnit.MILLISECONDS);
            if (done == null) {
                continue;
            }
            SurveyRow row = taken(done);
            rows.put(Path.of(row.cell("file")), row);
            line(to, SurveyTable.csv(row));
            left--;
            console.err().println("judged " + (all - left) + " of " + all + ": " + row.cell("file"));
        }
    }

    private static SurveyRow taken(Future<SurveyRow> done) throws IOException, InterruptedException {
        try {
            return done.get();
        } catch (ExecutionException e) {
            throw new IOException("a recording could not be judged: " + e.getCause(), e);
        }
    }

    private static void line(BufferedWriter to, String line) throws IOException {
        to.write(line);
        to.newLine();
        to.flush();
    }

    private static Map<String, SurveyRow> known(Path csv) throws IOException {
        Map<String, SurveyRow> rows = new HashMap<>();
        if (Files.isRegularFile(csv)) {
            List<String> lines = Files.readAllLines(csv);
            if (!lines.isEmpty() && lines.get(0).equals(SurveyTable.csvHeading())) {
                lines.stream().skip(1).forEach(l -> SurveyTable.parse(l).ifPresent(r -> rows.put(r.cell("file"), r)));
            }
        }
        return rows;
    }

    private static String bytes(Path file) throws IOException {
        return String.valueOf(Files.size(file));
    }

    private static String modified(Path file) throws IOException {
        return Files.getLastModifiedTime(file).toString();
    }

    private static SurveyRow row(Path file) throws IOException {
        String bytes = bytes(file);
        String modified = modified(file);
        try (RecordingFile recording = RecordingFile.open(file)) {
            Setup setup = KeptSetup.of(recording);
            Judged judged = Judged.of(recording, setup);
            return SurveyRow.of(
                    file.toString(),
                    Long.parseLong(bytes),
                    modified,
                    setup,
                    judged.summary(),
                    judged.cycles(),
                    Diagnosis.of(recording.header().channels(), setup, judged.cycles(), NotedAnswers.of(file)));
        } catch (RecordingException | InputException e) {
            return SurveyRow.unreadable(
                    file.toString(), Long.parseLong(bytes), modified, String.valueOf(e.getMessage()));
        }
    }
}
