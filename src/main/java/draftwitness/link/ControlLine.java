package draftwitness.link;

import draftwitness.input.InputException;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.stream.Collectors;

/** Lines of a serial port that are inputs here, and may carry contacts. */
enum ControlLine {
    /** Clear to send. */
    CTS,
    /** Data set ready. */
    DSR,
    /** Data carrier detect. */
    DCD,
    /** Ring indicator. */
    RI;

    /**
     * Reads {@code cts,dsr}.
     *
     * @throws InputException on a word that is none of them
     */
    static List<ControlLine> parse(String text) throws InputException {
        List<ControlLine> lines = new ArrayList<>();
        for (String word : text.split(",", -1)) {
            ControlLine line = Arrays.stream(values())
                    .filter(l -> l.name().equals(word.toUpperCase(Locale.ROOT)))
                    .findFirst()
                    .orElseThrow(() -> new InputException("lines=" + text + ": '" + word
                            + "' is not a control line; known: "
                            + Arrays.stream(values())
                                    .map(l -> l.name().toLowerCase(Locale.ROOT))
                                    .collect(Collectors.joining(" "))));
            if (!lines.contains(line)) {
                lines.add(line);
            }
        }
        return lines;
    }
}
