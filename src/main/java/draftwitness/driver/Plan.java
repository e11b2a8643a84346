package draftwitness.driver;

import java.util.List;
import java.util.function.Supplier;
import org.jspecify.annotations.Nullable;

/**
 * What a kind makes of a description.
 *
 * @param readings in order of index
 * @param decoders makes a decoder for one link
 * @param gatt what a Bluetooth link must get, or null for other links
 */
record Plan(
        List<ReadingSpec> readings,
        Supplier<Decoder> decoders,
        @Nullable GattNeeds gatt) {
    Plan {
        readings = List.copyOf(readings);
    }

    Plan(List<ReadingSpec> readings, Supplier<Decoder> decoders) {
        this(readings, decoders, null);
    }
}
