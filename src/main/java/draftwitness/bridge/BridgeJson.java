package draftwitness.bridge;

import com.fasterxml.jackson.core.JsonFactory;
import com.fasterxml.jackson.core.JsonGenerator;
import draftwitness.reading.Block;
import draftwitness.reading.Channel;
import draftwitness.reading.Decimal;
import draftwitness.reading.SessionHeader;
import draftwitness.reading.Slice;
import draftwitness.reading.SourceEvent;
import draftwitness.reading.SourceInfo;
import java.io.IOException;
import java.io.StringWriter;
import java.io.UncheckedIOException;
import java.math.BigDecimal;
import java.util.Locale;

/** Writes the messages of the open schema, version {@value #SCHEMA}; docs/bridge.md describes them. Pure. */
final class BridgeJson {
    /** Raised when a reader of the old messages would misread the new ones. */
    static final int SCHEMA = 1;

    private static final JsonFactory FACTORY = new JsonFactory();

    private BridgeJson() {}

    /** Writes what is particular to a message. */
    interface Body {
        void write(JsonGenerator json) throws IOException;
    }

    /** A message of a kind: schema, type and session first, then its own. */
    static Message message(Message.Kind kind, String session, Body body) {
        StringWriter out = new StringWriter();
        try (JsonGenerator json = FACTORY.createGenerator(out)) {
            json.writeStartObject();
            json.writeNumberField("schema", SCHEMA);
            json.writeStringField("type", kind.word());
            json.writeStringField("session", session);
            body.write(json);
            json.writeEndObject();
        } catch (IOException e) {
            throw new UncheckedIOException("writing to memory failed", e);
        }
        return new Message(kind, out.toString());
    }

    /** What the session is made of. Where the links go stays at home. */
    static Message session(String session, SessionHeader header, String software) {
        return message(Message.Kind.SESSION, session, json -> {
            if (header.start() == null) {
                json.writeNullField("start");
            } else {
                json.writeStringField("start", header.start().toString());
            }
            json.writeStringField("title", header.title());
            json.writeArrayFieldStart("channels");
            for (Channel c : header.channels()) {
                json.writeStartObject();
                json.writeStringField("role", c.tap().role());
                json.writeStringField("unit", c.unit().symbol());
                json.writeStringField("source", c.sourceId());
                json.writeEndObject();
            }
            json.writeEndArray();
            json.writeArrayFieldStart("sources");
            for (SourceInfo s : header.sources()) {
                json.writeStartObject();
                json.writeStringField("id", s.id());
                json.writeStringField("driver", s.driver());
                json.writeEndObject();
            }
            json.writeEndArray();
            json.writeStringField("setup", header.setupToml());
            json.writeStringField("software", software);
        });
    }

    /** All readings of one cell, each in its own step, and what became of the sources. */
    static Message readings(String session, Slice slice) {
        long startNanos = slice.index() * Slice.CELL_NANOS;
        return message(Message.Kind.READINGS, session, json -> {
            json.writeNumberField("cell", slice.index());
            json.writeFieldName("start_s");
            json.writeNumber(decimal(startNanos, 9));
            json.writeArrayFieldStart("channels");
            for (Block block : slice.blocks()) {
                block(json, block, startNanos);
            }
            json.writeEndArray();
            if (!slice.events().isEmpty()) {
                json.writeArrayFieldStart("sources");
                for (SourceEvent event : slice.events()) {
                    event(json, event);
                }
                json.writeEndArray();
            }
        });
    }

    private static void block(JsonGenerator json, Block block, long startNanos) throws IOException {
        json.writeStartObject();
        json.writeStringField("role", block.channel().tap().role());
        json.writeStringField("unit", block.step().unit().symbol());
        json.writeArrayFieldStart("at_ms");
        for (int i = 0; i < block.size(); i++) {
            json.writeNumber(decimal(block.timeNanos(i) - startNanos, 6));
        }
        json.writeEndArray();
        json.writeArrayFieldStart("values");
        StringBuilder text = new StringBuilder();
        for (int i = 0; i < block.size(); i++) {
            text.setLength(0);
            Decimal.append(text, block.count(i), block.step().decimals());
            json.writeNumber(text.toString()); // as the instrument wrote it: 1.50 stays 1.50
        }
        json.writeEndArray();
        json.writeEndObject();
    }

    private static void event(JsonGenerator json, SourceEvent event) throws IOException {
        json.writeStartObject();
        json.writeStringField("id", event.sourceId());
        json.writeFieldName("at_s");
        json.writeNumber(decimal(event.timeNanos(), 9));
        json.writeStringField("state", event.state().name().toLowerCase(Locale.ROOT));
        json.writeStringField("detail", event.detail());
        json.writeEndObject();
    }

    /**
     * Whether somebody is there, and what had to be dropped so far.
     *
     * @param ended whether the session is over and all of it was sent
     */
    static Message status(String session, boolean online, boolean ended, long dropped) {
        return message(Message.Kind.STATUS, session, json -> {
            json.writeBooleanField("online", online);
            json.writeBooleanField("ended", ended);
            json.writeNumberField("dropped", dropped);
        });
    }

    /** Nanoseconds as a number with the point moved, exact and without trailing zeros. */
    static BigDecimal decimal(long nanos, int places) {
        BigDecimal exact = BigDecimal.valueOf(nanos, places).stripTrailingZeros();
        return exact.scale() < 0 ? exact.setScale(0) : exact;
    }
}
