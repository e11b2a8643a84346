package draftwitness.bridge;

import com.fasterxml.jackson.core.JsonFactory;
import com.fasterxml.jackson.core.JsonParser;
import com.fasterxml.jackson.core.JsonToken;
import java.io.IOException;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/**
 * JSON from a stranger as maps, lists and texts; numbers stay the text that they were, so that {@code 1.50} keeps its
 * last digit. Depth is bounded. Immutable; any thread.
 */
final class JsonTree {
    private static final JsonFactory FACTORY = new JsonFactory();
    private static final int MAX_DEPTH = 8;

    private final Map<String, Object> fields;

    private JsonTree(Map<String, Object> fields) {
        this.fields = fields;
    }

    /** An object; empty when the bytes are anything else. */
    static Optional<JsonTree> parse(byte[] json) {
        try (JsonParser parser = FACTORY.createParser(json)) {
            if (parser.nextToken() != JsonToken.START_OBJECT) {
                return Optional.empty();
            }
            JsonTree tree = new JsonTree(object(parser, 0));
            return parser.nextToken() == null ? Optional.of(tree) : Optional.empty();
        } catch (IOException e) {
            return Optional.empty();
        }
    }

    private static Map<String, Object> object(JsonParser parser, int depth) throws IOException {
        Map<String, Object> fields = new LinkedHashMap<>();
        while (parser.nextToken() == JsonToken.FIELD_NAME) {
            String name = parser.currentName();
            parser.nextToken();
            fields.put(name, value(parser, depth + 1));
        }
        return fields;
    }

    private static Object value(JsonParser parser, int depth) throws IOException {
        if (depth > MAX_DEPTH) {
            throw new IOException("nested too deeply");
        }
        if (parser.currentToken() == JsonToken.START_OBJECT) {
            return new JsonTree(object(parser, depth));
        }
        if (parser.currentToken() == JsonToken.START_ARRAY) {
            List<Object> items = new ArrayList<>();
            while (parser.nextToken() != JsonToken.END_ARRAY) {
                items.add(value(parser, depth + 1));
            }
            return items;
        }
        return parser.currentToken() == JsonToken.VALUE_NULL ? "" : parser.getText();
    }

    /** A text, or a number as it was written; empty when it is absent or something else. */
    String text(String name) {
        return fields.get(name) instanceof String s ? s : "";
    }

    /** A whole number. */
    Optional<Long> whole(String name) {
        try {
            return Optional.of(Long.parseLong(text(name)));
        } catch (NumberFormatException e) {
            return Optional.empty();
        }
    }

    /** The objects in a list; others in it are passed over. */
    List<JsonTree> objects(String name) {
        return all(name, JsonTree.class);
    }

    /** The texts and numbers in a list; others in it are passed over. */
    List<String> texts(String name) {
        return all(name, String.class);
    }

    private <T> List<T> all(String name, Class<T> kind) {
        List<?> items = fields.get(name) instanceof List<?> list ? list : List.of();
        return items.stream().filter(kind::isInstance).map(kind::cast).toList();
    }
}
