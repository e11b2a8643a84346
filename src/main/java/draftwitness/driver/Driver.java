package draftwitness.driver;

import java.util.List;
import java.util.Optional;
import java.util.Set;

/** How to read one kind of instrument, with its parameters settled. Immutable; any thread. */
public interface Driver {

    /** As in {@code DRIVER@LINK}, without parameters. */
    String name();

    /** One line that says which instruments it is for. */
    String title();

    /** What it delivers; the order gives the index in {@link DecodeSink#reading}. At least one. */
    List<ReadingSpec> readings();

    /** A new decoder for one link. */
    Decoder newDecoder();

    /** The description's own text, to be kept with a recording; empty for plug-ins. */
    String description();

    /** What a Bluetooth low energy link must get from the device; empty for instruments on byte streams. */
    default Optional<GattNeeds> gatt() {
        return Optional.empty();
    }

    /**
     * Control lines of the serial port that carry contacts: some of {@code CTS DSR DCD RI}. The link hands on their
     * state after opening and at each change, as a chunk of one byte, 1 for asserted, whose endpoint is the line's
     * name.
     */
    default Set<String> controlLines() {
        return Set.of();
    }

    /** The instrument's own pace, where it is declared; empty if only arrivals tell when a sample was taken. */
    default Optional<SampleRate> sampleRate() {
        return Optional.empty();
    }

    /**
     * A decoder that judges bytes as they come and never asks, for looking at bytes that were caught elsewhere. It
     * takes them to begin at the start of a message, where it can.
     */
    default Decoder newListener() {
        return newDecoder();
    }
}
