package draftwitness.diagnosis.guided;

import java.util.List;
import java.util.Optional;

/**
 * What a measurement brought.
 *
 * @param kind the measurement
 * @param grade how it came out
 * @param verdict one or a few plain sentences
 * @param figures the numbers behind them, most telling first
 * @param remarks what limits them
 * @param spans where the readings came from, by part
 */
public record GuidedResult(
        GuidedKind kind, Grade grade, String verdict, List<Figure> figures, List<String> remarks, List<Span> spans) {
    public GuidedResult {
        figures = List.copyOf(figures);
        remarks = List.copyOf(remarks);
        spans = List.copyOf(spans);
    }

    /**
     * Where the readings of a part came from.
     *
     * @param part a {@link Part#id()}
     * @param fromNanos session time, inclusive
     * @param toNanos session time, exclusive
     */
    public record Span(String part, long fromNanos, long toNanos) {}

    /** The figure with an id, or empty. */
    public Optional<Figure> figure(String id) {
        return figures.stream().filter(f -> f.id().equals(id)).findFirst();
    }
}
