package draftwitness.app.cli;

import draftwitness.cycle.ChannelSummary;
import draftwitness.cycle.Gap;
import draftwitness.cycle.SessionSummarizer;
import draftwitness.cycle.SessionSummary;
import draftwitness.input.Durations;
import draftwitness.reading.SessionHeader;
import draftwitness.recording.RecordingException;
import draftwitness.recording.RecordingFile;
import draftwitness.report.AnalysisJson;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

/** {@code analyze}: what recordings hold. */
@Command(
        name = "analyze",
        mixinStandardHelpOptions = true,
        description = "Tells what recordings hold: channels, readings and gaps.")
final class AnalyzeCommand implements Callable<Integer> {
    private final Console console;

    @Parameters(arity = "1..*", paramLabel = "FILE", description = "Recordings (.dwrec).")
    private List<Path> files = new ArrayList<>();

    @Option(names = "--json", description = "One JSON object a file, one line each.")
    private boolean json;

    AnalyzeCommand(Console console) {
        this.console = console;
    }

    @Override
    public Integer call() throws Exception {
        int code = 0;
        for (Path file : files) {
            try {
                SessionSummary summary = summarize(file);
                if (json) {
                    console.out().println(AnalysisJson.of(file.toString(), summary));
                } else {
                    tell(file, summary);
                }
            } catch (RecordingException e) {
                if (files.size() == 1) {
                    throw RecordingErrors.whenReading(e);
                }
                if (json) {
                    console.out().println(AnalysisJson.error(file.toString(), String.valueOf(e.getMessage())));
                }
                console.err().println("draftwitness: " + e.getMessage());
                code = CommandLineProgram.FAILED;
            }
        }
        return code;
    }

    private static SessionSummary summarize(Path file) throws RecordingException {
        try (RecordingFile recording = RecordingFile.open(file)) {
            SessionSummarizer summarizer = new SessionSummarizer();
            summarizer.begin(recording.header());
            recording.forEachSlice(Long.MIN_VALUE, Long.MAX_VALUE, summarizer::slice);
            summarizer.end();
            return summarizer.summary();
        }
    }

    private void tell(Path file, SessionSummary summary) {
        SessionHeader header = summary.header();
        console.out()
                .println(file
                        + (header == null || header.title().isEmpty() ? "" : ": " + header.title())
                        + (header == null || header.start() == null ? "" : ", started " + header.start()) + ", "
                        + Durations.clock(summary.durationNanos()) + " long");
        for (ChannelSummary c : summary.channels()) {
            String every = c.periodNanos() == 0
                    ? ""
                    : String.format(Locale.ROOT, ", usually every %.3f s", c.periodNanos() / 1e9);
            console.out()
                    .println("  " + c.channel().tap().role() + ": " + c.readings() + " readings in "
                            + c.channel().unit().symbol() + every);
            for (Gap gap : c.gaps()) {
                console.out()
                        .println(String.format(
                                Locale.ROOT,
                                "    no readings from %.1f s to %.1f s (%.1f s)",
                                gap.startNanos() / 1e9,
                                gap.endNanos() / 1e9,
                                (gap.endNanos() - gap.startNanos()) / 1e9));
            }
        }
    }
}
