package draftwitness.report;

import com.fasterxml.jackson.core.JsonFactory;
import com.fasterxml.jackson.core.JsonGenerator;
import draftwitness.diagnosis.Answer;
import draftwitness.diagnosis.guided.Cautions;
import draftwitness.diagnosis.guided.Figure;
import draftwitness.diagnosis.guided.GuidedAnswers;
import draftwitness.diagnosis.guided.GuidedResult;
import draftwitness.diagnosis.guided.Scale;
import java.io.IOException;
import java.io.StringWriter;
import java.io.UncheckedIOException;
import java.util.List;
import java.util.Locale;

/**
 * What a guided measurement brought, as text for people and as one JSON object on one line for programs. Pure.
 *
 * <p>JSON: {@code measurement}, {@code grade}, {@code verdict}, {@code figures} (each with {@code id}, {@code value},
 * {@code uncertainty} or null, {@code unit}; uncertainties are half widths of 95 % intervals; a value without an upper
 * end is null), {@code remarks}, {@code spans} in seconds from the recording's start, {@code answers} for the
 * diagnosis, {@code cautions}.
 */
public final class GuidedReport {
    private static final JsonFactory FACTORY = new JsonFactory();

    private GuidedReport() {}

    /** As lines of text. */
    public static String text(GuidedResult result) {
        StringBuilder out = new StringBuilder();
        out.append(result.kind().id()).append(": ").append(word(result)).append('\n');
        out.append(result.verdict()).append('\n');
        for (Figure f : result.figures()) {
            out.append(String.format(Locale.ROOT, "  %-22s %s%n", f.id(), told(f)));
        }
        result.spans()
                .forEach(s -> out.append(String.format(
                        Locale.ROOT,
                        "  %-22s %.1f to %.1f s%n",
                        "read for " + s.part(),
                        s.fromNanos() / 1e9,
                        s.toNanos() / 1e9)));
        result.remarks().forEach(r -> out.append("- ").append(r).append('\n'));
        for (Answer a : GuidedAnswers.of(result)) {
            out.append("To the diagnosis: ")
                    .append(a.check())
                    .append(" = ")
                    .append(a.outcome())
                    .append('\n');
        }
        out.append("Mind: ").append(String.join(" ", Cautions.of(result.kind())));
        return out.toString().replace("\r\n", "\n");
    }

    /** The grade as a lower-case word. */
    private static String word(GuidedResult result) {
        return result.grade().name().toLowerCase(Locale.ROOT);
    }

    private static String told(Figure f) {
        double times = factor(f.scale());
        String unit = unit(f.scale());
        String value = Double.isInfinite(f.value()) ? "no end in sight" : digits(f.value() * times) + unit;
        return Double.isFinite(f.uncertainty()) ? value + " +- " + digits(f.uncertainty() * times) + unit : value;
    }

    private static double factor(Scale scale) {
        return switch (scale) {
            case SHARE -> 100;
            case CUBIC_METRE_PER_SECOND -> 60e6; // millilitres a minute
            default -> 1;
        };
    }

    private static String unit(Scale scale) {
        return switch (scale) {
            case SHARE -> " %";
            case CUBIC_METRE_PER_SECOND -> " mL/min";
            case NUMBER, COUNT -> "";
            default -> " " + scale.symbol();
        };
    }

    private static String digits(double value) {
        double size = Math.abs(value);
        int decimals = size >= 100 ? 1 : size >= 1 ? 2 : 4;
        return String.format(Locale.ROOT, size == Math.rint(size) ? "%.0f" : "%." + decimals + "f", value);
    }

    /**
     * As one JSON object.
     *
     * @param file the path as given
     */
    public static String json(String file, GuidedResult result) {
        StringWriter out = new StringWriter();
        try (JsonGenerator json = FACTORY.createGenerator(out)) {
            json.writeStartObject();
            json.writeStringField("file", file);
            json.writeStringField("measurement", result.kind().id());
            json.writeStringField("grade", word(result));
            json.writeStringField("verdict", result.verdict());
            json.writeArrayFieldStart("figures");
            for (Figure f : result.figures()) {
                json.writeStartObject();
                json.writeStringField("id", f.id());
                number(json, "value", f.value());
                number(json, "uncertainty", f.uncertainty());
                json.writeStringField("unit", f.scale().symbol());
                json.writeEndObject();
            }
            json.writeEndArray();
            texts(json, "remarks", result.remarks());
            json.writeArrayFieldStart("spans");
            for (GuidedResult.Span s : result.spans()) {
                json.writeStartObject();
                json.writeStringField("part", s.part());
                json.writeNumberField("start_s", s.fromNanos() / 1e9);
                json.writeNumberField("end_s", s.toNanos() / 1e9);
                json.writeEndObject();
            }
            json.writeEndArray();
            json.writeArrayFieldStart("answers");
            for (Answer a : GuidedAnswers.of(result)) {
                json.writeStartObject();
                json.writeStringField("check", a.check());
                json.writeStringField("outcome", a.outcome());
                json.writeEndObject();
            }
            json.writeEndArray();
            texts(json, "cautions", Cautions.of(result.kind()));
            json.writeEndObject();
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
        return out.toString();
    }

    private static void number(JsonGenerator json, String name, double value) throws IOException {
        if (Double.isFinite(value)) {
            json.writeNumberField(name, value);
        } else {
            json.writeNullField(name);
        }
    }

    private static void texts(JsonGenerator json, String name, List<String> texts) throws IOException {
        json.writeArrayFieldStart(name);
        for (String text : texts) {
            json.writeString(text);
        }
        json.writeEndArray();
    }
}
