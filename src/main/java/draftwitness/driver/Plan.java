package draftwitness.driver;

import java.util.List;
import java.util.function.Supplier;
import org.jspecify.annotations.Nullable;

/**
 * What a kind makes of a description.
 *
 * @param readings in order of index
 * @param decoders makes a decoder for one link
 * @param listeners makes a decoder that never asks, see {@link Driver#newListener}
 * @param gatt what a Bluetooth link must get, or null for other links
 * @param counted whether messages carry the instrument's own counter
 */
record Plan(
        List<ReadingSpec> readings,
        Supplier<Decoder> decoders,
        Supplier<Decoder> listeners,
        @Nullable GattNeeds gatt,
        boolean counted) {
    Plan {
        readings = List.copyOf(readings);
    }

    Plan(
            List<ReadingSpec> readings,
            Supplier<Decoder> decoders,
            Supplier<Decoder> listeners,
            @Nullable GattNeeds gatt) {
        this(readings, decoders, listeners, gatt, false);
    }

    /** The same, of an instrument whose messages are counted by itself, or not. */
    Plan counted(boolean byItself) {
        return new Plan(readings, decoders, listeners, gatt, byItself);
    }

    Plan(List<ReadingSpec> readings, Supplier<Decoder> decoders) {
        this(readings, decoders, decoders, null);
    }
}
