package draftwitness.report;

import draftwitness.cycle.Cycle;
import draftwitness.cycle.CycleReport;
import draftwitness.cycle.EpisodeKind;
import draftwitness.cycle.Margin;
import draftwitness.cycle.Outcome;
import draftwitness.cycle.SessionSummary;
import draftwitness.diagnosis.DiagnosisReport;
import draftwitness.diagnosis.RankedCause;
import draftwitness.reading.SessionHeader;
import draftwitness.setup.Setup;
import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import org.jspecify.annotations.Nullable;

/**
 * One recording in a survey of many: a line of a table. Pure.
 *
 * @param cells texts in the order of {@link #COLUMNS}
 */
public record SurveyRow(List<String> cells) {
    /** The table's heading. */
    public static final List<String> COLUMNS = List.of(
            "file",
            "bytes",
            "modified",
            "site",
            "start",
            "hours",
            "cycles",
            "heated",
            "failed",
            "lockouts",
            "worst_margin_pa",
            "band",
            "flutter",
            "sags",
            "other_episodes",
            "gaps",
            "likely_cause",
            "probability",
            "next_likely",
            "next_probability",
            "error");

    public SurveyRow {
        cells = List.copyOf(cells);
        if (cells.size() != COLUMNS.size()) {
            throw new IllegalArgumentException(cells.size() + " cells for " + COLUMNS.size() + " columns");
        }
    }

    /**
     * The line of a recording that was judged.
     *
     * @param file as given
     * @param bytes size of the file
     * @param modified when it was changed last; with the size tells whether a line is still true
     */
    public static SurveyRow of(
            String file,
            long bytes,
            String modified,
            Setup setup,
            SessionSummary summary,
            CycleReport report,
            DiagnosisReport diagnosis) {
        List<String> cells = new ArrayList<>(List.of(file, String.valueOf(bytes), modified));
        SessionHeader header = summary.header();
        cells.add(!setup.title().isEmpty() || header == null ? setup.title() : header.title());
        cells.add(header == null || header.start() == null ? "" : header.start().toString());
        cells.add(decimal(summary.durationNanos() / 3.6e12, 3));
        List<Cycle> cycles = report.cycles();
        cells.add(String.valueOf(cycles.size()));
        cells.add(count(cycles, Outcome.HEATED));
        cells.add(String.valueOf(cycles.stream()
                .filter(c -> c.outcome() != Outcome.HEATED
                        && c.outcome() != Outcome.INCOMPLETE
                        && c.outcome() != Outcome.LOCKOUT)
                .count()));
        cells.add(count(cycles, Outcome.LOCKOUT));
        margin(cells, cycles);
        long flutter = episodes(cycles, EpisodeKind.FLUTTER);
        long sags = episodes(cycles, EpisodeKind.SAG);
        long all = cycles.stream().mapToLong(c -> c.episodes().size()).sum();
        cells.addAll(List.of(String.valueOf(flutter), String.valueOf(sags), String.valueOf(all - flutter - sags)));
        cells.add(String.valueOf(
                summary.channels().stream().mapToInt(c -> c.gaps().size()).sum()));
        cause(cells, diagnosis.causes(), 0);
        cause(cells, diagnosis.causes(), 1);
        cells.add("");
        return new SurveyRow(cells);
    }

    /** The line of a recording that cannot be read. */
    public static SurveyRow unreadable(String file, long bytes, String modified, String problem) {
        List<String> cells = new ArrayList<>(List.of(file, String.valueOf(bytes), modified));
        while (cells.size() < COLUMNS.size() - 1) {
            cells.add("");
        }
        cells.add(problem);
        return new SurveyRow(cells);
    }

    /** A cell by its column's name. */
    public String cell(String column) {
        return cells.get(COLUMNS.indexOf(column));
    }

    private static String count(List<Cycle> cycles, Outcome outcome) {
        return String.valueOf(
                cycles.stream().filter(c -> c.outcome() == outcome).count());
    }

    private static long episodes(List<Cycle> cycles, EpisodeKind kind) {
        return cycles.stream()
                .flatMap(c -> c.episodes().stream())
                .filter(e -> e.kind() == kind)
                .count();
    }

    private static void margin(List<String> cells, List<Cycle> cycles) {
        Optional<Margin> worst = cycles.stream()
                .map(Cycle::margin)
                .filter(m -> m != null)
                .min(Comparator.comparingDouble(Margin::p01Pascals));
        cells.add(worst.map(m -> decimal(m.p01Pascals(), 1)).orElse(""));
        cells.add(worst.map(m -> m.band().id()).orElse(""));
    }

    private static void cause(List<String> cells, List<RankedCause> causes, int rank) {
        @Nullable RankedCause cause = rank < causes.size() ? causes.get(rank) : null;
        cells.add(cause == null ? "" : cause.cause().id());
        cells.add(cause == null ? "" : decimal(cause.probability(), 3));
    }

    private static String decimal(double value, int places) {
        return new BigDecimal(String.format(Locale.ROOT, "%." + places + "f", value)).toPlainString();
    }
}
