package draftwitness.diagnosis.guided;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * A result as the text of a note: a person reads the first line, the program reads it all back. Pure.
 *
 * <pre>
 * Measured leak-down (fault): It leaks: time constant 2.31 ± 0.05 s, about 4 % of the suction in service.
 * - time-constant = 2.31 +- 0.05 s [SECOND]
 * . Tube and diaphragm are tested together ...
 * read: decay 12.3 to 45.6 s
 * </pre>
 */
public final class GuidedText {
    private static final Pattern HEAD = Pattern.compile("Measured (\\S+) \\((\\S+)\\): (.*)");
    private static final Pattern FIGURE = Pattern.compile("- (\\S+) = (\\S+)(?: \\+- (\\S+))? \\S+ \\[(\\S+)]");
    private static final Pattern SPAN = Pattern.compile("read: (\\S+) (-?\\d+\\.\\d+) to (-?\\d+\\.\\d+) s");

    private GuidedText() {}

    /** Writes a result. */
    public static String of(GuidedResult result) {
        StringBuilder out = new StringBuilder();
        out.append("Measured ")
                .append(result.kind().id())
                .append(" (")
                .append(result.grade().name().toLowerCase(Locale.ROOT))
                .append("): ")
                .append(result.verdict());
        for (Figure f : result.figures()) {
            out.append("\n- ").append(f.id()).append(" = ").append(f.value());
            if (!Double.isNaN(f.uncertainty())) {
                out.append(" +- ").append(f.uncertainty());
            }
            out.append(' ')
                    .append(f.scale().symbol())
                    .append(" [")
                    .append(f.scale())
                    .append(']');
        }
        result.remarks().forEach(remark -> out.append("\n. ").append(remark));
        for (GuidedResult.Span s : result.spans()) {
            out.append(String.format(
                    Locale.ROOT, "\nread: %s %.9f to %.9f s", s.part(), s.fromNanos() / 1e9, s.toNanos() / 1e9));
        }
        return out.toString();
    }

    /** Reads a result back; empty if the text is another note, or was changed so that it is none any more. */
    public static Optional<GuidedResult> parse(String text) {
        List<String> lines = text.lines().toList();
        Matcher head = HEAD.matcher(lines.isEmpty() ? "" : lines.get(0));
        if (!head.matches()) {
            return Optional.empty();
        }
        Optional<GuidedKind> kind = GuidedKind.ofId(head.group(1));
        List<Figure> figures = new ArrayList<>();
        List<String> remarks = new ArrayList<>();
        List<GuidedResult.Span> spans = new ArrayList<>();
        try {
            Grade grade = Grade.valueOf(head.group(2).toUpperCase(Locale.ROOT));
            for (String line : lines.subList(1, lines.size())) {
                Matcher figure = FIGURE.matcher(line);
                Matcher span = SPAN.matcher(line);
                if (figure.matches()) {
                    figures.add(figure(figure));
                } else if (span.matches()) {
                    spans.add(new GuidedResult.Span(span.group(1), nanos(span.group(2)), nanos(span.group(3))));
                } else if (line.startsWith(". ")) {
                    remarks.add(line.substring(2));
                }
            }
            return kind.map(k -> new GuidedResult(k, grade, head.group(3), figures, remarks, spans));
        } catch (IllegalArgumentException e) {
            return Optional.empty();
        }
    }

    private static Figure figure(Matcher m) {
        double uncertainty = m.group(3) == null ? Double.NaN : Double.parseDouble(m.group(3));
        return new Figure(m.group(1), Double.parseDouble(m.group(2)), uncertainty, Scale.valueOf(m.group(4)));
    }

    private static long nanos(String seconds) {
        return Math.round(Double.parseDouble(seconds) * 1e9);
    }
}
