package draftwitness.report;

import java.util.Locale;

/**
 * Text put together as XHTML or SVG. Everything that came from outside goes through {@link #escape}. One owner thread.
 */
final class Markup {
    private final StringBuilder out = new StringBuilder();

    /** Adds markup that the program itself wrote. */
    Markup raw(String markup) {
        out.append(markup);
        return this;
    }

    /** Adds text, made harmless. */
    Markup text(String text) {
        out.append(escape(text));
        return this;
    }

    /** Adds an element that holds only text. */
    Markup element(String name, String text) {
        return raw("<" + name + ">").text(text).raw("</" + name.split(" ", 2)[0] + ">");
    }

    /** Adds a number with so many decimals, for coordinates. */
    Markup number(double value, int decimals) {
        out.append(String.format(Locale.ROOT, "%." + decimals + "f", value));
        return this;
    }

    /**
     * Text as it may stand in XML, in an attribute too: what XML 1.0 does not allow becomes the replacement character.
     */
    static String escape(String text) {
        StringBuilder safe = new StringBuilder(text.length() + 16);
        text.codePoints().forEach(c -> {
            switch (c) {
                case '&' -> safe.append("&amp;");
                case '<' -> safe.append("&lt;");
                case '>' -> safe.append("&gt;");
                case '"' -> safe.append("&quot;");
                case '\'' -> safe.append("&#39;");
                default -> safe.appendCodePoint(allowed(c) ? c : 0xFFFD);
            }
        });
        return safe.toString();
    }

    private static boolean allowed(int c) {
        return c == '\t'
                || c == '\n'
                || c == '\r'
                || (c >= 0x20 && c <= 0xD7FF)
                || (c >= 0xE000 && c <= 0xFFFD)
                || (c >= 0x10000 && c <= 0x10FFFF);
    }

    @Override
    public String toString() {
        return out.toString();
    }
}
