package draftwitness.report;

import com.fasterxml.jackson.core.JsonFactory;
import com.fasterxml.jackson.core.JsonGenerator;
import draftwitness.cycle.ChannelSummary;
import draftwitness.cycle.Cycle;
import draftwitness.cycle.CycleReport;
import draftwitness.cycle.Episode;
import draftwitness.cycle.Evidence;
import draftwitness.cycle.Finding;
import draftwitness.cycle.Gap;
import draftwitness.cycle.Margin;
import draftwitness.cycle.Phase;
import draftwitness.cycle.PhaseSpan;
import draftwitness.cycle.SessionSummary;
import draftwitness.diagnosis.DiagnosisReport;
import draftwitness.diagnosis.NextCheck;
import draftwitness.diagnosis.RankedCause;
import java.io.IOException;
import java.io.StringWriter;
import java.io.UncheckedIOException;
import java.math.BigDecimal;
import java.math.RoundingMode;
import java.util.Map;
import org.jspecify.annotations.Nullable;

/**
 * The analysis of one recording as one JSON object on one line. Times are seconds from the recording's start, with the
 * digits that they have and no more.
 */
public final class AnalysisJson {
    private static final JsonFactory FACTORY = new JsonFactory();

    private AnalysisJson() {}

    private interface Body {
        void write(JsonGenerator json) throws IOException;
    }

    /**
     * Writes what a recording holds, what the furnace did in it, and what is likely wrong.
     *
     * @param file the path as given
     */
    public static String of(String file, SessionSummary summary, CycleReport report, DiagnosisReport diagnosis) {
        return object(json -> {
            json.writeStringField("file", file);
            if (summary.header() == null || summary.header().start() == null) {
                json.writeNullField("start");
            } else {
                json.writeStringField("start", String.valueOf(summary.header().start()));
            }
            json.writeFieldName("duration_s");
            json.writeNumber(seconds(summary.durationNanos()));
            json.writeArrayFieldStart("channels");
            for (ChannelSummary c : summary.channels()) {
                channel(json, c);
            }
            json.writeEndArray();
            json.writeArrayFieldStart("cycles");
            for (Cycle c : report.cycles()) {
                cycle(json, c);
            }
            json.writeEndArray();
            json.writeArrayFieldStart("lockouts");
            for (Gap g : report.lockouts()) {
                json.writeStartObject();
                span(json, g.startNanos(), g.endNanos());
                json.writeEndObject();
            }
            json.writeEndArray();
            json.writeArrayFieldStart("findings");
            for (Finding f : report.findings()) {
                finding(json, f);
            }
            json.writeEndArray();
            causes(json, diagnosis);
            nextChecks(json, diagnosis);
        });
    }

    /** Writes why a recording could not be analysed. */
    public static String error(String file, String problem) {
        return object(json -> {
            json.writeStringField("file", file);
            json.writeStringField("error", problem);
        });
    }

    /** One cycle alone, as in the list of cycles. */
    public static String cycle(Cycle c) {
        return text(json -> cycle(json, c));
    }

    /** One episode alone, as in the list of a cycle's episodes. */
    public static String episode(Episode e) {
        return text(json -> episode(json, e));
    }

    private static void channel(JsonGenerator json, ChannelSummary c) throws IOException {
        json.writeStartObject();
        json.writeStringField("role", c.channel().tap().role());
        json.writeStringField("unit", c.channel().tap().quantity().baseUnit().symbol());
        json.writeNumberField("readings", c.readings());
        json.writeArrayFieldStart("gaps");
        for (Gap gap : c.gaps()) {
            json.writeStartObject();
            span(json, gap.startNanos(), gap.endNanos());
            json.writeEndObject();
        }
        json.writeEndArray();
        json.writeEndObject();
    }

    private static void cycle(JsonGenerator json, Cycle c) throws IOException {
        json.writeStartObject();
        json.writeNumberField("index", c.index());
        span(json, c.startNanos(), c.endNanos());
        json.writeStringField("outcome", c.outcome().id());
        if (c.reason() != null) {
            json.writeStringField("reason", c.reason().id());
        }
        json.writeNumberField("attempts", c.attempts());
        json.writeArrayFieldStart("phases");
        for (PhaseSpan p : c.phases()) {
            json.writeStartObject();
            json.writeStringField("phase", p.phase().id());
            span(json, p.startNanos(), p.endNanos());
            json.writeEndObject();
        }
        json.writeEndArray();
        margins(json, c);
        json.writeNumberField("transitions", c.transitions());
        json.writeArrayFieldStart("episodes");
        for (Episode e : c.episodes()) {
            episode(json, e);
        }
        json.writeEndArray();
        json.writeEndObject();
    }

    private static void margins(JsonGenerator json, Cycle c) throws IOException {
        json.writeFieldName("margin_pa");
        Margin m = c.margin();
        if (m == null) {
            json.writeNull();
            return;
        }
        json.writeStartObject();
        margin(json, m);
        json.writeObjectFieldStart("by_phase");
        for (Map.Entry<Phase, Margin> e : c.marginByPhase().entrySet()) {
            json.writeObjectFieldStart(e.getKey().id());
            margin(json, e.getValue());
            json.writeEndObject();
        }
        json.writeEndObject();
        json.writeEndObject();
    }

    private static void margin(JsonGenerator json, Margin m) throws IOException {
        number(json, "min", m.minPascals());
        number(json, "p01", m.p01Pascals());
        number(json, "mean", m.meanPascals());
        json.writeStringField("band", m.band().id());
    }

    private static void episode(JsonGenerator json, Episode e) throws IOException {
        Evidence v = e.evidence();
        json.writeStartObject();
        json.writeStringField("kind", e.kind().id());
        span(json, e.startNanos(), e.endNanos());
        if (e.phase() != null) {
            json.writeStringField("phase", e.phase().id());
        }
        json.writeStringField("role", e.tap().role());
        text(json, "character", v.character());
        number(json, "frequency_hz", v.frequencyHertz());
        number(json, "confidence", v.confidence());
        if (v.transitions() > 0) {
            json.writeNumberField("transitions", v.transitions());
        }
        number(json, "depth_pa", v.depthPascals());
        number(json, "level_pa", v.levelPascals());
        text(json, "source", v.source());
        json.writeStringField("text", e.text());
        json.writeEndObject();
    }

    private static void finding(JsonGenerator json, Finding f) throws IOException {
        json.writeStartObject();
        json.writeStringField("kind", f.kind());
        json.writeStringField("severity", f.severity().id());
        if (f.cycle() > 0) {
            json.writeNumberField("cycle", f.cycle());
        }
        span(json, f.startNanos(), f.endNanos());
        json.writeStringField("text", f.text());
        json.writeEndObject();
    }

    /**
     * All causes, most likely first; four decimals, and what rounding leaves goes to the first, so that they sum to 1.
     */
    private static void causes(JsonGenerator json, DiagnosisReport diagnosis) throws IOException {
        BigDecimal rest = BigDecimal.ONE.setScale(4);
        for (RankedCause c : diagnosis.causes()) {
            rest = rest.subtract(rounded(c.probability(), 4));
        }
        json.writeArrayFieldStart("causes");
        for (RankedCause c : diagnosis.causes()) {
            json.writeStartObject();
            json.writeStringField("cause", c.cause().id());
            json.writeFieldName("probability");
            json.writeNumber(rounded(c.probability(), 4).add(rest));
            rest = BigDecimal.ZERO;
            json.writeArrayFieldStart("because");
            for (String line : c.because()) {
                json.writeString(line);
            }
            json.writeEndArray();
            json.writeEndObject();
        }
        json.writeEndArray();
    }

    private static void nextChecks(JsonGenerator json, DiagnosisReport diagnosis) throws IOException {
        json.writeArrayFieldStart("next_checks");
        for (NextCheck n : diagnosis.nextChecks()) {
            json.writeStartObject();
            json.writeStringField("check", n.check().id());
            json.writeFieldName("gain_bits");
            json.writeNumber(rounded(n.gainBits(), 3));
            json.writeFieldName("minutes");
            json.writeNumber(BigDecimal.valueOf(n.check().minutes()).stripTrailingZeros());
            json.writeStringField("text", n.text());
            json.writeEndObject();
        }
        json.writeEndArray();
    }

    private static BigDecimal rounded(double value, int decimals) {
        return BigDecimal.valueOf(value).setScale(decimals, RoundingMode.HALF_EVEN);
    }

    private static void text(JsonGenerator json, String name, @Nullable String value) throws IOException {
        if (value != null) {
            json.writeStringField(name, value);
        }
    }

    /** Two decimals, a hundredth of a pascal or hertz; nothing when it is not a number. */
    private static void number(JsonGenerator json, String name, double value) throws IOException {
        if (!Double.isNaN(value) && !Double.isInfinite(value)) {
            json.writeFieldName(name);
            json.writeNumber(BigDecimal.valueOf(value).setScale(2, RoundingMode.HALF_EVEN));
        }
    }

    private static void span(JsonGenerator json, long startNanos, long endNanos) throws IOException {
        json.writeFieldName("start_s");
        json.writeNumber(seconds(startNanos));
        json.writeFieldName("end_s");
        json.writeNumber(seconds(endNanos));
    }

    private static BigDecimal seconds(long nanos) {
        BigDecimal exact = BigDecimal.valueOf(nanos, 9).stripTrailingZeros();
        return exact.scale() < 1 ? exact.setScale(1) : exact;
    }

    private static String object(Body body) {
        return text(json -> {
            json.writeStartObject();
            body.write(json);
            json.writeEndObject();
        });
    }

    private static String text(Body body) {
        StringWriter out = new StringWriter();
        try (JsonGenerator json = FACTORY.createGenerator(out)) {
            body.write(json);
        } catch (IOException e) {
            throw new UncheckedIOException("writing to memory failed", e);
        }
        return out.toString();
    }
}
