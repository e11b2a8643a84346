package draftwitness.driver;

import java.util.List;

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
}
