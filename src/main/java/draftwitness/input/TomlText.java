package draftwitness.input;

/** TOML written out. Pure. */
public final class TomlText {
    private TomlText() {}

    /** A text as a TOML basic string, quotes included. */
    public static String quoted(String text) {
        StringBuilder out = new StringBuilder("\"");
        for (int i = 0; i < text.length(); i++) {
            char c = text.charAt(i);
            if (c == '"' || c == '\\') {
                out.append('\\').append(c);
            } else if (c < ' ' || c == 0x7F) {
                out.append(String.format("\\u%04X", (int) c));
            } else {
                out.append(c);
            }
        }
        return out.append('"').toString();
    }
}
