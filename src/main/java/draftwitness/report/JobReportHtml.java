package draftwitness.report;

import draftwitness.cycle.ChannelSummary;
import draftwitness.cycle.Cycle;
import draftwitness.cycle.Finding;
import draftwitness.cycle.Margin;
import draftwitness.cycle.Phase;
import draftwitness.cycle.Severity;
import draftwitness.diagnosis.Cause;
import draftwitness.diagnosis.EvidenceLine;
import draftwitness.diagnosis.NextCheck;
import draftwitness.diagnosis.RankedCause;
import draftwitness.input.Durations;
import draftwitness.reading.SessionHeader;
import draftwitness.reading.SourceInfo;
import draftwitness.reading.Unit;
import draftwitness.setup.Setup;
import java.time.ZoneOffset;
import java.time.format.DateTimeFormatter;
import java.time.temporal.ChronoUnit;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import org.jspecify.annotations.Nullable;

/**
 * A job report as one page of XHTML that needs nothing from outside: styles and drawings are in it. It prints well, and
 * {@link JobReportPdf} makes pages of the same text. Pure.
 */
public final class JobReportHtml {
    private static final int MOST_CAUSES = 5;
    private static final int MOST_CHECKS = 6;
    private static final int MOST_LINES = 6;
    private static final double SHOWN_FROM = 0.02;

    private final JobReport report;
    private final Markup page = new Markup();

    private JobReportHtml(JobReport report) {
        this.report = report;
    }

    /**
     * Writes the page.
     *
     * @param paper for printing
     */
    public static String of(JobReport report, Paper paper) {
        return new JobReportHtml(report).write(paper);
    }

    private String write(Paper paper) {
        String title = title();
        page.raw(
                "<!DOCTYPE html>\n<html xmlns=\"http://www.w3.org/1999/xhtml\" lang=\"en\"><head><meta charset=\"utf-8\"/>");
        page.raw("<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\"/>");
        page.element("title", title + ": job report");
        page.raw("<style>").raw(ReportStyle.css(paper)).raw("</style></head><body>\n");
        page.element("h1", title);
        page.raw("<p class=\"lead\">").text(when()).raw("</p>\n");
        verdict();
        worst();
        cycles();
        causes();
        checks();
        margins();
        findings();
        connected();
        appliance();
        lines("Notes", report.notes());
        cautions();
        origin();
        return page.raw("</body></html>\n").toString();
    }

    private @Nullable SessionHeader header() {
        return report.summary().header();
    }

    private String title() {
        if (!report.setup().title().isEmpty()) {
            return report.setup().title();
        }
        SessionHeader header = header();
        return header == null || header.title().isEmpty() ? report.file() : header.title();
    }

    private String when() {
        SessionHeader header = header();
        String start = header == null || header.start() == null
                ? "Recorded at an unknown time"
                : "Recorded from "
                        + DateTimeFormatter.ofPattern("yyyy-MM-dd HH:mm:ss", Locale.ROOT)
                                .format(header.start()
                                        .plusNanos(report.summary().firstNanos())
                                        .truncatedTo(ChronoUnit.SECONDS)
                                        .atOffset(ZoneOffset.UTC))
                        + " UTC";
        return start + ", " + Durations.length(report.summary().durationNanos())
                + " long. Times below count from its begin.";
    }

    private void verdict() {
        page.raw("<section class=\"verdict\">");
        page.element("h2", "Verdict");
        page.element("p", report.diagnosis().conclusion());
        Cause first = report.diagnosis().first().cause();
        if (first.danger() && report.diagnosis().first().probability() > 0.3) {
            page.raw("<p class=\"danger\"><strong>Danger.</strong> ");
            page.text("Leave the appliance off until a qualified person has made it safe.")
                    .raw("</p>");
        }
        page.raw("</section>\n");
    }

    private void cycles() {
        List<Cycle> cycles = report.cycles().cycles();
        page.element("h2", "Heating cycles");
        if (cycles.isEmpty()) {
            page.element("p", "No heating cycle was seen.");
            return;
        }
        page.raw("<figure>").raw(CycleRowDrawing.of(cycles, report.setup(), report.unit()));
        page.element(
                "figcaption",
                "One mark a cycle, numbered in order. Height: margin beyond the set point (first percentile)."
                        + " Grey disc: heated; ring: cut off by the recording; cross: failed; black box: lockout.");
        page.raw("</figure>\n<table><thead><tr><th>Cycle</th><th>From</th><th>To</th><th>Outcome</th><th>Starts</th>"
                + "<th>Contact changes</th><th>Episodes</th></tr></thead><tbody>");
        for (Cycle c : cycles) {
            page.raw("<tr>");
            page.element("td", String.valueOf(c.index()));
            page.element("td class=\"time\"", clock(c.startNanos()));
            page.element("td class=\"time\"", clock(c.endNanos()));
            page.element("td", outcome(c)).element("td", String.valueOf(c.attempts()));
            page.element("td", String.valueOf(c.transitions()));
            page.element("td", episodes(c));
            page.raw("</tr>");
        }
        page.raw("</tbody></table>\n");
    }

    private static String outcome(Cycle c) {
        String reason = c.reason() == null ? "" : ": " + c.reason().words();
        return c.outcome().id() + reason;
    }

    private static String episodes(Cycle c) {
        Map<String, Integer> counts = new java.util.TreeMap<>();
        c.episodes().forEach(e -> counts.merge(e.kind().id(), 1, Integer::sum));
        StringBuilder words = new StringBuilder();
        counts.forEach((kind, n) -> words.append(words.isEmpty() ? "" : ", ")
                .append(n == 1 ? "" : n + " x ")
                .append(kind));
        return words.toString();
    }

    private void worst() {
        if (report.worst().isEmpty()) {
            return;
        }
        page.element("h2", "Worst moments");
        for (JobReport.Shown shown : report.worst()) {
            page.raw("<figure class=\"episode\">");
            page.element(
                    "h3",
                    shown.episode().kind().id() + " in cycle " + shown.cycle() + " at "
                            + clock(shown.episode().startNanos()));
            page.raw(EpisodeChart.of(shown, report.setup(), report.unit()));
            page.element("figcaption", shown.episode().text());
            page.raw("</figure>\n");
        }
    }

    private void causes() {
        page.element("h2", "What may be wrong, and why");
        int shown = 0;
        for (RankedCause c : report.diagnosis().causes()) {
            if (shown >= MOST_CAUSES || (shown > 0 && c.probability() < SHOWN_FROM)) {
                break;
            }
            shown++;
            page.raw("<div class=\"cause\">");
            page.element("h3", percent(c.probability()) + " " + c.cause().name());
            page.element("p", c.cause().meaning());
            evidence("For it", c.supporting());
            evidence("Against it", c.opposing());
            if (!c.wouldChange().isEmpty()) {
                page.raw("<p><em>What would change this:</em> ")
                        .text(c.wouldChange())
                        .raw(".</p>");
            }
            page.raw("</div>\n");
        }
        page.element(
                "p class=\"small\"",
                "Shares of likelihood by the program's table of causes and evidence; they are advice and no measurement.");
    }

    private void evidence(String words, List<EvidenceLine> lines) {
        if (lines.isEmpty()) {
            return;
        }
        page.raw("<p>").raw("<em>" + words + ":</em></p><ul>");
        lines.stream()
                .limit(MOST_LINES)
                .forEach(line -> page.element(
                        "li",
                        line.text() + " (" + String.format(Locale.ROOT, "%+.1f bit", line.bits()) + "; " + line.why()
                                + " [" + line.source() + "])"));
        page.raw("</ul>");
    }

    private void checks() {
        lines("Checks done", report.done());
        lines("Guided measurements", report.measured());
        List<NextCheck> open = report.diagnosis().nextChecks();
        if (!open.isEmpty()) {
            page.element("h2", "Still to check");
            page.raw("<ol>");
            open.stream().limit(MOST_CHECKS).forEach(n -> {
                page.raw("<li><strong>").text(n.check().title()).raw("</strong>");
                page.text(String.format(
                        Locale.ROOT,
                        " (about %.0f min; tells %.2f bit). ",
                        n.check().minutes(),
                        n.gainBits()));
                page.text(n.text()).raw("</li>");
            });
            page.raw("</ol>\n");
        }
    }

    private void margins() {
        List<Cycle> cycles = report.cycles().cycles().stream()
                .filter(c -> c.margin() != null)
                .toList();
        if (cycles.isEmpty()) {
            return;
        }
        String unit = report.unit().symbol();
        page.element("h2", "Margin beyond the set point, " + unit);
        page.raw("<table><thead><tr><th>Cycle</th><th>Phase</th><th>Weakest</th><th>First percentile</th><th>Mean</th>"
                + "<th>Band</th></tr></thead><tbody>");
        for (Cycle c : cycles) {
            row(String.valueOf(c.index()), "whole cycle", c.margin());
            for (Map.Entry<Phase, Margin> e : c.marginByPhase().entrySet()) {
                row("", e.getKey().id(), e.getValue());
            }
        }
        page.raw("</tbody></table>\n");
        page.element(
                "p class=\"small\"",
                "A healthy furnace pulls about 0.75 to 1.0 in w.c. beyond the set point (common practice, no source)."
                        + " A tenth of an inch is within the switch's own tolerance.");
    }

    private void row(String cycle, String phase, @Nullable Margin m) {
        if (m == null) {
            return;
        }
        page.raw("<tr>").element("td", cycle).element("td", phase);
        page.element("td", pressure(m.minPascals())).element("td", pressure(m.p01Pascals()));
        page.element("td", pressure(m.meanPascals())).element("td", m.band().id());
        page.raw("</tr>");
    }

    private void findings() {
        List<Finding> findings = report.cycles().findings();
        if (findings.isEmpty()) {
            return;
        }
        page.element("h2", "Findings");
        page.raw(
                "<table><thead><tr><th>Weight</th><th>What</th><th>Cycle</th><th>At</th><th>Explanation</th></tr></thead>"
                        + "<tbody>");
        for (Finding f : findings) {
            boolean grave = f.severity().compareTo(Severity.WARNING) >= 0;
            page.raw("<tr>")
                    .raw("<td>")
                    .raw(grave ? "<strong>" : "")
                    .text(f.severity().id());
            page.raw(grave ? "</strong></td>" : "</td>");
            page.element("td", f.kind()).element("td", f.cycle() == 0 ? "" : String.valueOf(f.cycle()));
            page.element("td class=\"time\"", clock(f.startNanos())).element("td", f.text());
            page.raw("</tr>");
        }
        page.raw("</tbody></table>\n");
    }

    private void connected() {
        page.element("h2", "What was connected where");
        page.raw("<table><thead><tr><th>Tap</th><th>Instrument</th><th>Unit</th><th>Readings</th><th>Usually every</th>"
                + "<th>Gaps</th></tr></thead><tbody>");
        SessionHeader header = header();
        for (ChannelSummary c : report.summary().channels()) {
            page.raw("<tr>").element("td", c.channel().tap().role());
            page.element("td", instrument(header, c.channel().sourceId()));
            page.element("td", c.channel().unit().symbol()).element("td", String.valueOf(c.readings()));
            page.element("td", c.periodNanos() == 0 ? "" : String.format(Locale.ROOT, "%.3f s", c.periodNanos() / 1e9));
            page.element("td", String.valueOf(c.gaps().size())).raw("</tr>");
        }
        page.raw("</tbody></table>\n");
        lines("What the recording does not hold", report.thinned());
    }

    private static String instrument(@Nullable SessionHeader header, String sourceId) {
        if (header != null) {
            for (SourceInfo s : header.sources()) {
                if (s.id().equals(sourceId)) {
                    return s.id() + ", driver " + s.driver() + ", at " + s.link();
                }
            }
        }
        return sourceId;
    }

    private void appliance() {
        Setup setup = report.setup();
        page.element("h2", "Appliance and setup");
        page.raw("<table class=\"facts\"><tbody>");
        Setup.PressureSwitch s = setup.pressureSwitch();
        if (s != null) {
            fact("Switch set point", quantity(s.setPointPascals()));
            fact("Switch differential", quantity(s.differentialPascals()));
            fact("Switch tolerance", "+/- " + quantity(s.tolerancePascals()));
        } else {
            fact("Switch set point", "not given: no margin and no modelled switch can be told");
        }
        if (setup.gas().kind() != null) {
            fact("Gas", setup.gas().kind().name().toLowerCase(Locale.ROOT));
        }
        optional("Manifold by the plate", setup.gas().manifoldPascals());
        optional("Inlet at least", setup.gas().inletMinPascals());
        optional("Inlet at most", setup.gas().inletMaxPascals());
        optional("External static at most", setup.externalStaticMaxPascals());
        fact("Attempts before lockout", String.valueOf(setup.sequence().attempts()));
        page.raw("</tbody></table>\n");
    }

    private void optional(String name, @Nullable Double pascals) {
        if (pascals != null) {
            fact(name, quantity(pascals));
        }
    }

    private void fact(String name, String value) {
        page.raw("<tr>").element("th", name).element("td", value).raw("</tr>");
    }

    private void lines(String heading, List<String> lines) {
        if (!lines.isEmpty()) {
            page.element("h2", heading).raw("<ul>");
            lines.forEach(line -> page.element("li", line));
            page.raw("</ul>\n");
        }
    }

    private void cautions() {
        page.element("h2", "Cautions").raw("<ul>");
        Cautions.ALL.forEach(c -> page.element("li", c));
        page.raw("</ul>\n");
    }

    private void origin() {
        page.element("h2", "How these numbers were got");
        page.element(
                "p",
                "Pressures are as the instruments sent them, kept without rounding; times are counted from the session's begin."
                        + " Suction is the magnitude of draft below room air, less the zero learnt in standby. Margin is suction"
                        + " beyond the set point from the end of spin-up to the end of the run, without the first 3 s after"
                        + " light-off; the first percentile is what it fell short of for a hundredth of the time. A sag is suction"
                        + " weaker than the running level by more than the greater of 3 sigma and 8 % for at least 0.3 s. Flutter is three"
                        + " or more changes of the contact within 10 s. Inches of water are conventional (249.08891 Pa).");
        page.raw("<table class=\"facts\"><tbody>");
        fact("Recording", report.file());
        fact("SHA-256 of the file", report.checksum());
        fact("Recorded by", report.recordedBy());
        fact("Report by", report.software());
        fact("Made", report.made().truncatedTo(ChronoUnit.SECONDS).toString());
        page.raw("</tbody></table>\n");
    }

    private String quantity(double pascals) {
        return pressure(pascals) + " " + report.unit().symbol();
    }

    private String pressure(double pascals) {
        Unit unit = report.unit();
        return String.format(Locale.ROOT, "%." + unit.usualDecimals() + "f", unit.fromBase(pascals));
    }

    private static String percent(double p) {
        return Math.round(100 * p) + " %";
    }

    private static String clock(long nanos) {
        return Durations.clock(Math.max(0, nanos));
    }
}
