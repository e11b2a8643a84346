package draftwitness.driver;

import draftwitness.input.InputException;
import draftwitness.input.TomlTableReader;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.stream.Collectors;

/** The kinds of description, each told by the key {@code kind}. */
enum Kind {
    /** Lines of text that come by themselves. */
    LINE,
    /** Binary messages that come by themselves. */
    FRAME,
    /** Registers of a Modbus RTU instrument that must be asked. */
    MODBUS,
    /** Lines of text that must be asked for. */
    QUERY,
    /** Checked sentences in the style of NMEA 0183 that come by themselves. */
    SENTENCE,
    /** Characteristics of a Bluetooth low energy device. */
    GATT,
    /** Nothing but contacts on the control lines of a serial port. */
    CONTROL_LINE;

    /** Reads the part of a description that belongs to this kind. */
    Plan read(TomlTableReader root) throws InputException {
        return switch (this) {
            case LINE -> LineKind.read(root);
            case FRAME -> FrameKind.read(root);
            case MODBUS -> ModbusKind.read(root);
            case QUERY -> QueryKind.read(root);
            case SENTENCE -> SentenceKind.read(root);
            case GATT -> GattKind.read(root);
            case CONTROL_LINE -> new Plan(List.of(), ContactDecoder.Nothing::new);
        };
    }

    String word() {
        return name().toLowerCase(Locale.ROOT).replace('_', '-');
    }

    static String words() {
        return Arrays.stream(values()).map(Kind::word).collect(Collectors.joining(" "));
    }

    /** The kind that a description declares. */
    static Kind of(TomlTableReader root) throws InputException {
        String word = root.requiredString("kind");
        for (Kind kind : values()) {
            if (kind.word().equals(word)) {
                return kind;
            }
        }
        throw root.error("kind", "'" + word + "' is not a kind; known: " + words());
    }
}
