package draftwitness.bridge;

import draftwitness.reading.Block;
import draftwitness.reading.Channel;
import draftwitness.reading.Decimal;
import draftwitness.reading.SessionHeader;
import draftwitness.reading.Slice;
import draftwitness.reading.SourceInfo;
import draftwitness.reading.Step;
import draftwitness.reading.Tap;
import draftwitness.reading.Unit;
import java.math.BigDecimal;
import java.math.RoundingMode;
import java.time.Instant;
import java.time.format.DateTimeParseException;
import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;

/** Reads what {@link BridgeJson} wrote, from anybody: what is not of the schema is refused, never guessed at. Pure. */
final class BridgeReader {
    private static final Pattern MILLIS = Pattern.compile("-?[0-9]{1,15}(\\.[0-9]{1,9})?");

    private BridgeReader() {}

    /** What a session is made of; empty if the message does not say it in the known way. */
    static Optional<SessionHeader> session(JsonTree json) {
        if (!known(json, Message.Kind.SESSION)) {
            return Optional.empty();
        }
        List<Channel> channels = new ArrayList<>();
        Set<Tap> taken = new LinkedHashSet<>();
        Set<String> sources = new LinkedHashSet<>();
        for (JsonTree c : json.objects("channels")) {
            Optional<Tap> tap = Tap.ofRole(c.text("role"));
            Optional<Unit> unit = Unit.ofSymbol(c.text("unit"));
            if (tap.isEmpty()
                    || unit.isEmpty()
                    || unit.get().quantity() != tap.get().quantity()
                    || !taken.add(tap.get())) {
                return Optional.empty();
            }
            sources.add(c.text("source"));
            channels.add(new Channel(tap.get(), c.text("source"), c.text("role"), unit.get()));
        }
        List<SourceInfo> infos =
                sources.stream().map(id -> new SourceInfo(id, "", "", "")).toList();
        return Optional.of(new SessionHeader(
                start(json.text("start")),
                json.text("title"),
                SessionHeader.LIVE_TIME_STEP_NANOS,
                channels,
                infos,
                json.text("setup")));
    }

    private static boolean known(JsonTree json, Message.Kind kind) {
        return json.whole("schema").orElse(0L) == BridgeJson.SCHEMA
                && json.text("type").equals(kind.word());
    }

    private static @Nullable Instant start(String text) {
        try {
            return text.isEmpty() ? null : Instant.parse(text);
        } catch (DateTimeParseException e) {
            return null;
        }
    }

    /** One cell's readings; empty if the message is not one, or speaks of channels that the session does not have. */
    static Optional<Slice> readings(JsonTree json, SessionHeader header) {
        Optional<Long> cell = json.whole("cell");
        if (!known(json, Message.Kind.READINGS)
                || cell.isEmpty()
                || Math.abs(cell.get()) > Long.MAX_VALUE / (2 * Slice.CELL_NANOS)) {
            return Optional.empty();
        }
        List<Block> blocks = new ArrayList<>();
        for (JsonTree channel : json.objects("channels")) {
            Optional<Block> block = block(channel, header, cell.get() * Slice.CELL_NANOS);
            if (block.isEmpty()) {
                return Optional.empty();
            }
            blocks.add(block.get());
        }
        return Optional.of(new Slice(cell.get(), blocks, List.of()));
    }

    private static Optional<Block> block(JsonTree json, SessionHeader header, long startNanos) {
        Optional<Channel> channel = Tap.ofRole(json.text("role")).flatMap(header::channelAt);
        Optional<Unit> unit = Unit.ofSymbol(json.text("unit"));
        List<String> at = json.texts("at_ms");
        List<String> values = json.texts("values");
        if (channel.isEmpty() || unit.isEmpty() || values.isEmpty() || at.size() != values.size()) {
            return Optional.empty();
        }
        long[] times = new long[at.size()];
        long[] counts = new long[at.size()];
        int decimals = -1;
        for (int i = 0; i < counts.length; i++) {
            Optional<Decimal> value = Decimal.parse(values.get(i));
            Optional<Long> offset = nanos(at.get(i));
            boolean fits = value.isPresent()
                    && offset.isPresent()
                    && (decimals < 0 || value.get().decimals() == decimals);
            if (!fits) {
                return Optional.empty();
            }
            decimals = value.orElseThrow().decimals();
            counts[i] = value.orElseThrow().count();
            times[i] = startNanos + offset.orElseThrow();
        }
        try {
            return Optional.of(new Block(channel.get(), new Step(unit.get(), decimals), times, counts));
        } catch (IllegalArgumentException e) {
            return Optional.empty(); // times that do not increase, a unit of another quantity
        }
    }

    private static Optional<Long> nanos(String millis) {
        if (!MILLIS.matcher(millis).matches()) {
            return Optional.empty(); // also 1e999999999, which would fill the memory
        }
        try {
            return Optional.of(new BigDecimal(millis)
                    .movePointRight(6)
                    .setScale(0, RoundingMode.UNNECESSARY)
                    .longValueExact());
        } catch (ArithmeticException | NumberFormatException e) {
            return Optional.empty();
        }
    }
}
