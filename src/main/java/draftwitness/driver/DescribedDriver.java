package draftwitness.driver;

import java.util.List;
import java.util.function.Supplier;

/** A driver made from a TOML description. */
record DescribedDriver(
        String name, String title, List<ReadingSpec> readings, Supplier<Decoder> decoders, String description)
        implements Driver {
    @Override
    public Decoder newDecoder() {
        return decoders.get();
    }
}
