package draftwitness.report;

import com.fasterxml.jackson.core.JsonFactory;
import com.fasterxml.jackson.core.JsonGenerator;
import draftwitness.cycle.ChannelSummary;
import draftwitness.cycle.Gap;
import draftwitness.cycle.SessionSummary;
import java.io.IOException;
import java.io.StringWriter;
import java.io.UncheckedIOException;
import java.math.BigDecimal;

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
     * Writes what a recording holds.
     *
     * @param file the path as given
     */
    public static String of(String file, SessionSummary summary) {
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
        });
    }

    /** Writes why a recording could not be analysed. */
    public static String error(String file, String problem) {
        return object(json -> {
            json.writeStringField("file", file);
            json.writeStringField("error", problem);
        });
    }

    private static void channel(JsonGenerator json, ChannelSummary c) throws IOException {
        json.writeStartObject();
        json.writeStringField("role", c.channel().tap().role());
        json.writeStringField("unit", c.channel().tap().quantity().baseUnit().symbol());
        json.writeNumberField("readings", c.readings());
        json.writeArrayFieldStart("gaps");
        for (Gap gap : c.gaps()) {
            json.writeStartObject();
            json.writeFieldName("start_s");
            json.writeNumber(seconds(gap.startNanos()));
            json.writeFieldName("end_s");
            json.writeNumber(seconds(gap.endNanos()));
            json.writeEndObject();
        }
        json.writeEndArray();
        json.writeEndObject();
    }

    private static BigDecimal seconds(long nanos) {
        BigDecimal exact = BigDecimal.valueOf(nanos, 9).stripTrailingZeros();
        return exact.scale() < 1 ? exact.setScale(1) : exact;
    }

    private static String object(Body body) {
        StringWriter out = new StringWriter();
        try (JsonGenerator json = FACTORY.createGenerator(out)) {
            json.writeStartObject();
            body.write(json);
            json.writeEndObject();
        } catch (IOException e) {
            throw new UncheckedIOException("writing to memory failed", e);
        }
        return out.toString();
    }
}
