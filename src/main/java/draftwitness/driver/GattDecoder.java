package draftwitness.driver;

import draftwitness.reading.Chunk;
import java.util.LinkedHashMap;
import java.util.Map;
import org.jspecify.annotations.Nullable;

/**
 * Reads the values of a Bluetooth low energy device, each by the characteristic that it came from. One owner thread.
 *
 * <p>With {@link GattNeeds#ANY}, the first characteristic whose descriptor says a suitable unit is the one; the others
 * are passed over.
 */
final class GattDecoder implements Decoder {
    private final Map<String, GattPart> parts;
    private final GattPart.@Nullable SelfDescribed any;
    private @Nullable String chosen;

    GattDecoder(Map<String, GattPart> parts) {
        this.parts = new LinkedHashMap<>(parts);
        GattPart wildcard = this.parts.remove(GattNeeds.ANY);
        this.any = wildcard instanceof GattPart.SelfDescribed self ? self : null;
    }

    @Override
    public void decode(Chunk chunk, DecodeSink sink) {
        String endpoint = chunk.endpoint();
        int slash = endpoint.indexOf('/');
        String uuid = slash < 0 ? endpoint : endpoint.substring(0, slash);
        if (chunk.size() == 0) {
            return;
        }
        if (uuid.equals(GattNeeds.BATTERY_LEVEL) && !parts.containsKey(uuid)) {
            battery(chunk, slash >= 0, sink);
            return;
        }
        GattPart part = parts.get(uuid);
        if (part == null) {
            wildcard(chunk, uuid, slash >= 0, sink);
        } else if (slash < 0) {
            part.value(chunk, sink);
        } else {
            part.descriptor(chunk, sink);
        }
    }

    private void wildcard(Chunk chunk, String uuid, boolean descriptor, DecodeSink sink) {
        if (any == null || (chosen != null && !chosen.equals(uuid))) {
            sink.filler(chunk.size());
        } else if (descriptor) {
            any.descriptor(chunk, sink);
            chosen = any.isReady() ? uuid : null;
        } else if (chosen == null) {
            sink.filler(chunk.size());
        } else {
            any.value(chunk, sink);
        }
    }

    /** Battery level: whole percent, 0 to 100; more is reserved. */
    private static void battery(Chunk chunk, boolean descriptor, DecodeSink sink) {
        if (descriptor) {
            sink.filler(chunk.size());
        } else if (chunk.size() == 1 && chunk.at(0) <= 100) {
            sink.battery(chunk.at(0));
            sink.message(1);
        } else {
            sink.fault(Fault.NOT_A_READING, chunk.size());
        }
    }

    @Override
    public void restart(long nowNanos) {
        parts.values().forEach(GattPart::restart);
        if (any != null) {
            any.restart();
        }
        chosen = null;
    }

    @Override
    public void restartInStep(long nowNanos) {
        restart(nowNanos);
        parts.values().forEach(GattPart::startClean);
    }

    @Override
    public int held() {
        return parts.values().stream().mapToInt(GattPart::held).sum();
    }
}
