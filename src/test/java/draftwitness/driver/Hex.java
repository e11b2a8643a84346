package draftwitness.driver;

import java.util.HexFormat;

/** Bytes written as hexadecimal digits with blanks between. */
final class Hex {
    private Hex() {}

    static byte[] bytes(String text) {
        return HexFormat.of().parseHex(text.replace(" ", ""));
    }

    static String text(byte[] bytes) {
        return HexFormat.ofDelimiter(" ").withUpperCase().formatHex(bytes);
    }
}
