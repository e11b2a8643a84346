package draftwitness.bridge;

import draftwitness.input.InputException;
import java.util.Locale;
import java.util.regex.Pattern;

/**
 * A house's name in topics: one level, so that a wildcard names all houses.
 *
 * @param name letters, digits, dots, hyphens and underscores, at most 64
 */
public record Site(String name) {
    private static final Pattern NAME = Pattern.compile("[A-Za-z0-9._-]{1,64}");

    /** First level of all topics, with the schema's version. */
    static final String ROOT = "draftwitness/" + BridgeJson.SCHEMA;

    public Site {
        if (!NAME.matcher(name).matches()) {
            throw new IllegalArgumentException("'" + name + "' is not a site's name");
        }
    }

    /**
     * Reads a name that a person typed.
     *
     * @throws InputException if it cannot stand in a topic
     */
    public static Site parse(String text) throws InputException {
        if (!NAME.matcher(text).matches()) {
            throw new InputException(
                    "'" + text + "' cannot name a site: letters, digits, dot, hyphen and underscore, at most 64");
        }
        return new Site(text);
    }

    /** A name made from a title, such as {@code back-hall-furnace}; {@code house} when nothing is left of it. */
    public static Site ofTitle(String title) {
        String name =
                title.toLowerCase(Locale.ROOT).replaceAll("[^a-z0-9]+", "-").replaceAll("^-|-$", "");
        return new Site(name.isEmpty() ? "house" : name.substring(0, Math.min(64, name.length())));
    }

    String topic(Message.Kind kind) {
        return ROOT + "/" + name + "/" + kind.word();
    }

    String allTopics() {
        return ROOT + "/" + name + "/+";
    }
}
