package draftwitness.driver;

import java.util.List;
import java.util.function.Supplier;

/**
 * What a kind makes of a description.
 *
 * @param readings in order of index
 * @param decoders makes a decoder for one link
 */
record Plan(List<ReadingSpec> readings, Supplier<Decoder> decoders) {
    Plan {
        readings = List.copyOf(readings);
    }
}
