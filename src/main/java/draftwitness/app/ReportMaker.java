package draftwitness.app;

import draftwitness.cycle.CycleReport;
import draftwitness.diagnosis.Answer;
import draftwitness.diagnosis.Check;
import draftwitness.diagnosis.Diagnosis;
import draftwitness.diagnosis.guided.GuidedText;
import draftwitness.input.Durations;
import draftwitness.input.InputException;
import draftwitness.reading.Channel;
import draftwitness.reading.SessionHeader;
import draftwitness.reading.Unit;
import draftwitness.recording.Note;
import draftwitness.recording.Notebook;
import draftwitness.recording.RecordingException;
import draftwitness.recording.RecordingFile;
import draftwitness.recording.Series;
import draftwitness.report.JobReport;
import draftwitness.report.JobReportHtml;
import draftwitness.report.JobReportPdf;
import draftwitness.report.Paper;
import draftwitness.report.Trace;
import draftwitness.report.WorstEpisodes;
import draftwitness.setup.Setup;
import java.io.IOException;
import java.io.InputStream;
import java.io.OutputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.security.DigestInputStream;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.time.Instant;
import java.util.ArrayList;
import java.util.HexFormat;
import java.util.List;
import java.util.Locale;
import org.jspecify.annotations.Nullable;

/** Makes job reports of recordings, for the command and for the window alike. Any thread but the screen's. */
public final class ReportMaker {
    private final String software;

    /**
     * A maker.
     *
     * @param software name and version of the program
     */
    public ReportMaker(String software) {
        this.software = software;
    }

    /** The kinds of file that a report can be. */
    public enum Form {
        PDF,
        HTML;

        /**
         * The kind that a file's name asks for.
         *
         * @throws InputException if it asks for neither
         */
        public static Form of(Path out) throws InputException {
            String name = out.toString().toLowerCase(Locale.ROOT);
            if (name.endsWith(".pdf")) {
                return PDF;
            }
            if (name.endsWith(".html") || name.endsWith(".htm")) {
                return HTML;
            }
            throw new InputException(out + ": a report's name ends in .pdf or .html");
        }
    }

    /**
     * Gathers everything.
     *
     * @param given setup to use instead of the one kept with the recording, or null
     * @param unit to show pressures in; null for the one that the draft was read in
     * @param made when
     */
    public JobReport gather(Path file, @Nullable Setup given, @Nullable Unit unit, Instant made)
            throws RecordingException, InputException, IOException {
        String checksum = checksum(file);
        try (RecordingFile recording = RecordingFile.open(file)) {
            SessionHeader header = recording.header();
            Setup setup = given != null ? given : KeptSetup.of(recording);
            Judged judged = Judged.of(recording, setup);
            CycleReport report = judged.cycles();
            List<Note> notes = Notebook.of(file).notes();
            List<Answer> answers = NotedAnswers.of(notes);
            return new JobReport(
                    String.valueOf(file.getFileName()),
                    checksum,
                    software,
                    recording.software(),
                    made,
                    unit == null ? unitOf(header) : unit,
                    setup,
                    judged.summary(),
                    report,
                    Diagnosis.of(header.channels(), setup, report, answers),
                    answers.stream().map(ReportMaker::done).toList(),
                    measured(notes),
                    written(notes),
                    thinned(recording),
                    shown(recording, report));
        }
    }

    private static Unit unitOf(SessionHeader header) {
        return header.channels().stream()
                .filter(c -> c.tap().role().startsWith("draft."))
                .map(Channel::unit)
                .findFirst()
                .orElse(Unit.PASCAL);
    }

    private static String done(Answer answer) {
        return Check.ofId(answer.check())
                .map(c -> c.title() + ": "
                        + c.outcome(answer.outcome()).map(Check.Outcome::text).orElse(answer.outcome()))
                .orElse(answer.check());
    }

    private static List<String> measured(List<Note> notes) {
        return notes.stream()
                .filter(n -> GuidedText.parse(n.text()).isPresent())
                .map(ReportMaker::told)
                .toList();
    }

    /** Notes that people wrote; answers and measurements stand in their own places. */
    private static List<String> written(List<Note> notes) {
        return notes.stream()
                .filter(n -> NotedAnswers.answer(n).isEmpty()
                        && GuidedText.parse(n.text()).isEmpty())
                .map(ReportMaker::told)
                .toList();
    }

    private static String told(Note note) {
        return "at " + Durations.clock(Math.max(0, note.fromNanos())) + ": " + note.text();
    }

    private static List<String> thinned(RecordingFile recording) throws RecordingException {
        List<String> lines = new ArrayList<>();
        recording.thinned().forEach(t -> lines.add("thinned: " + t));
        recording.lost().forEach(t -> lines.add("lost: " + t));
        return lines;
    }

    private static List<JobReport.Shown> shown(RecordingFile recording, CycleReport report) throws RecordingException {
        List<JobReport.Shown> shown = new ArrayList<>();
        for (WorstEpisodes.Pick pick : WorstEpisodes.of(report)) {
            List<Trace> traces = new ArrayList<>();
            for (Channel c : recording.header().channels()) {
                if (WorstEpisodes.isBeside(pick.episode(), c.tap())) {
                    traces.add(trace(recording, c, pick));
                }
            }
            traces.sort((a, b) -> Boolean.compare(
                    b.channel().tap() == pick.episode().tap(),
                    a.channel().tap() == pick.episode().tap()));
            shown.add(new JobReport.Shown(pick.cycle(), pick.episode(), pick.fromNanos(), pick.toNanos(), traces));
        }
        return shown;
    }

    private static Trace trace(RecordingFile recording, Channel channel, WorstEpisodes.Pick pick)
            throws RecordingException {
        Series series = recording.read(channel, pick.fromNanos(), pick.toNanos(), recording.zeros());
        long[] times = new long[series.size()];
        double[] values = new double[series.size()];
        for (int i = 0; i < times.length; i++) {
            times[i] = series.timeNanos(i);
            values[i] = series.value(i);
        }
        return new Trace(channel, times, values);
    }

    /** SHA-256 of a file's bytes as they are now. */
    private static String checksum(Path file) throws IOException {
        try {
            MessageDigest digest = MessageDigest.getInstance("SHA-256");
            try (InputStream in = new DigestInputStream(Files.newInputStream(file), digest)) {
                long unused = in.transferTo(OutputStream.nullOutputStream());
            }
            return HexFormat.of().formatHex(digest.digest());
        } catch (NoSuchAlgorithmException e) {
            throw new IllegalStateException("every Java runtime has SHA-256", e);
        }
    }

    /**
     * Writes a report; the file appears whole or not at all.
     *
     * @throws IOException if it cannot be written
     */
    public static void write(JobReport report, Form form, Paper paper, Path out) throws IOException {
        WholeFile.write(out, to -> {
            switch (form) {
                case PDF -> JobReportPdf.write(report, paper, to);
                case HTML -> to.write(JobReportHtml.of(report, paper).getBytes(StandardCharsets.UTF_8));
            }
        });
    }
}
