package draftwitness.link;

import draftwitness.input.InputException;
import draftwitness.input.Options;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.stream.Collectors;

/**
 * Where a link goes, as written on the command line: {@code KIND:TARGET?options}.
 *
 * @param kind serial, tcp, ...
 * @param target a device path, host and port, file, address or scenario
 * @param options checked against the kind's known keys
 */
public record LinkAddress(Kind kind, String target, Options options) {

    /** The kinds of link and the options each takes. */
    public enum Kind {
        SERIAL,
        TCP,
        BLE,
        FILE,
        RECORDING,
        SIMULATED,
        MQTT;

        private Set<String> knownOptions() {
            return switch (this) {
                case SERIAL -> Set.of("baud", "data", "parity", "stop", "flow");
                case BLE -> Set.of("adapter");
                case FILE -> Set.of("baud", "speed");
                case RECORDING -> Set.of("speed");
                case SIMULATED -> Set.of("seed", "speed");
                case MQTT -> Set.of("speed", "tls", "ca", "user", "password-file", "from", "start");
                case TCP -> Set.of();
            };
        }

        /** As written before the colon. */
        public String word() {
            return name().toLowerCase(Locale.ROOT);
        }
    }

    /** Option of serial links that is never typed: control lines to watch, see {@link #watching}. */
    static final String LINES = "lines";

    private static final Map<String, Kind> BY_WORD =
            Arrays.stream(Kind.values()).collect(Collectors.toUnmodifiableMap(Kind::word, k -> k));

    /**
     * Reads {@code serial:/dev/ttyUSB0?baud=9600} and its like.
     *
     * @throws InputException on an unknown kind, a missing target, or an option that the kind does not know
     */
    public static LinkAddress parse(String text) throws InputException {
        int colon = text.indexOf(':');
        Kind kind = colon < 0 ? null : BY_WORD.get(text.substring(0, colon));
        if (kind == null) {
            throw new InputException("'" + text
                    + "' is not a link; links begin with serial: tcp: ble: file: recording: simulated: mqtt:");
        }
        Options options = Options.parse(text.substring(colon + 1));
        options.allowOnly(kind.knownOptions());
        if (options.base().isEmpty()) {
            throw new InputException("'" + text + "' does not say where to, after " + kind.word() + ":");
        }
        return new LinkAddress(kind, options.base(), options);
    }

    /**
     * The same link, whose control lines are watched too: after opening and at each change a chunk of one byte comes, 1
     * for asserted, whose endpoint is the line's name.
     *
     * @param lines some of {@code CTS DSR DCD RI}; with none, this very address
     */
    public LinkAddress watching(Set<String> lines) {
        if (lines.isEmpty()) {
            return this;
        }
        Map<String, String> values = new LinkedHashMap<>(options.values());
        values.put(LINES, String.join(",", lines.stream().sorted().toList()).toLowerCase(Locale.ROOT));
        return new LinkAddress(kind, target, new Options(options.base(), values));
    }

    /** The same link with other options; what is never typed is added this way. */
    public LinkAddress with(Options other) {
        return new LinkAddress(kind, target, other);
    }

    /** A link of the same kind and options to another target. */
    LinkAddress at(String otherTarget) {
        return new LinkAddress(kind, otherTarget, new Options(otherTarget, options.values()));
    }

    /** How much faster than the clock on the wall this link runs; 1 for real instruments. */
    public double speed() throws InputException {
        return options.number("speed", 1, 0, 10_000);
    }

    @Override
    public String toString() {
        return kind.word() + ":" + options;
    }
}
