package draftwitness.bridge;

import static org.assertj.core.api.Assertions.assertThat;

import draftwitness.reading.Block;
import draftwitness.reading.Channel;
import draftwitness.reading.SessionHeader;
import draftwitness.reading.Slice;
import draftwitness.reading.SourceEvent;
import draftwitness.reading.SourceInfo;
import draftwitness.reading.SourceState;
import draftwitness.reading.Step;
import draftwitness.reading.Tap;
import draftwitness.reading.Unit;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class BridgeMessagesTest {
    private static final Channel SWITCH = new Channel(Tap.DRAFT_SWITCH, "box", "draft.switch", Unit.INCH_OF_WATER);
    private static final Channel CONTACT = new Channel(Tap.CONTACT_SWITCH, "box", "contact.switch", Unit.CONTACT);
    private static final SessionHeader HEADER = new SessionHeader(
            Instant.parse("2026-01-17T22:10:00Z"),
            "Back \"hall\" furnace\n",
            SessionHeader.LIVE_TIME_STEP_NANOS,
            List.of(SWITCH, CONTACT),
            List.of(new SourceInfo("box", "binary-frame", "serial:/dev/ttyUSB0", "")),
            "[switch]\nset-point = \"0.95 inH2O\"\n");

    private static JsonTree parse(Message message) {
        return JsonTree.parse(message.bytes()).orElseThrow();
    }

    @Test
    void givenASession_whenReadBack_thenChannelsSetupAndStartAreTheSameAndLinksStayedAtHome() {
        Message message = BridgeJson.session("s1", HEADER, "draftwitness 1");
        SessionHeader read = BridgeReader.session(parse(message)).orElseThrow();
        assertThat(read.start()).isEqualTo(HEADER.start());
        assertThat(read.title()).isEqualTo(HEADER.title());
        assertThat(read.setupToml()).isEqualTo(HEADER.setupToml());
        assertThat(read.channels()).isEqualTo(HEADER.channels());
        assertThat(message.json()).doesNotContain("ttyUSB0").doesNotContain("\n");
    }

    @Test
    void givenASlice_whenWritten_thenTheDocumentedTextComesOut() {
        Block block = new Block(
                SWITCH, new Step(Unit.INCH_OF_WATER, 3), new long[] {1_200_000_000L, 1_220_100_000L}, new long[] {
                    -1500, -1502
                });
        Slice slice = new Slice(
                12, List.of(block), List.of(new SourceEvent("box", 1_250_000_000L, SourceState.GONE, "unplugged")));
        assertThat(BridgeJson.readings("s1", slice).json())
                .isEqualTo("{\"schema\":1,\"type\":\"readings\",\"session\":\"s1\",\"cell\":12,\"start_s\":1.2,"
                        + "\"channels\":[{\"role\":\"draft.switch\",\"unit\":\"inH2O\",\"at_ms\":[0,20.1],"
                        + "\"values\":[-1.500,-1.502]}],"
                        + "\"sources\":[{\"id\":\"box\",\"at_s\":1.25,\"state\":\"gone\",\"detail\":\"unplugged\"}]}");
    }

    @Test
    void givenRandomSlices_whenReadBack_thenTimesCountsAndStepsAreTheSame() {
        for (long seed = 1; seed <= 200; seed++) {
            Random random = new Random(seed);
            Slice slice = slice(random);
            Optional<Slice> read = BridgeReader.readings(parse(BridgeJson.readings("s", slice)), HEADER);
            assertThat(read).as("seed %d", seed).contains(slice);
        }
    }

    private static Slice slice(Random random) {
        long cell = random.nextInt(1_000_000) - 1000L;
        List<Block> blocks = new ArrayList<>();
        for (Channel channel : HEADER.channels()) {
            int n = random.nextInt(40);
            if (n > 0) {
                long[] times = new long[n];
                long[] counts = new long[n];
                long at = cell * Slice.CELL_NANOS - random.nextInt(3) * 100_000L * random.nextInt(5000);
                for (int i = 0; i < n; i++) {
                    at += (1 + random.nextInt(300)) * 100_000L;
                    times[i] = at;
                    counts[i] = channel.equals(CONTACT) ? random.nextInt(2) : random.nextInt(100_000) - 50_000;
                }
                blocks.add(new Block(
                        channel,
                        new Step(channel.unit(), channel.equals(CONTACT) ? 0 : random.nextInt(5)),
                        times,
                        counts));
            }
        }
        return new Slice(cell, blocks, List.of());
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "",
                "[]",
                "{",
                "{\"schema\":1,\"type\":\"readings\"}",
                "{\"schema\":2,\"type\":\"readings\",\"cell\":1,\"channels\":[]}",
                "{\"schema\":1,\"type\":\"readings\",\"cell\":99999999999999999,\"channels\":[]}",
                "{\"schema\":1,\"type\":\"readings\",\"cell\":1,\"channels\":[{\"role\":\"gas.inlet\",\"unit\":\"Pa\",\"at_ms\":[0],\"values\":[1]}]}",
                "{\"schema\":1,\"type\":\"readings\",\"cell\":1,\"channels\":[{\"role\":\"draft.switch\",\"unit\":\"V\",\"at_ms\":[0],\"values\":[1]}]}",
                "{\"schema\":1,\"type\":\"readings\",\"cell\":1,\"channels\":[{\"role\":\"draft.switch\",\"unit\":\"Pa\",\"at_ms\":[0,0],\"values\":[1,1]}]}",
                "{\"schema\":1,\"type\":\"readings\",\"cell\":1,\"channels\":[{\"role\":\"draft.switch\",\"unit\":\"Pa\",\"at_ms\":[1e99999999],\"values\":[1]}]}",
                "{\"schema\":1,\"type\":\"readings\",\"cell\":1,\"channels\":[{\"role\":\"draft.switch\",\"unit\":\"Pa\",\"at_ms\":[0],\"values\":[1e400]}]}",
                "{\"schema\":1,\"type\":\"readings\",\"cell\":1,\"channels\":[{\"role\":\"draft.switch\",\"unit\":\"Pa\",\"at_ms\":[0],\"values\":[]}]}",
                "{\"a\":{\"a\":{\"a\":{\"a\":{\"a\":{\"a\":{\"a\":{\"a\":{\"a\":{\"a\":{\"a\":1}}}}}}}}}}}"
            })
    void givenWhatIsNotOfTheSchema_whenRead_thenItIsRefusedWithoutHarm(String json) {
        Optional<Slice> read = JsonTree.parse(MessageBytes.of(json)).flatMap(t -> BridgeReader.readings(t, HEADER));
        assertThat(read).isEmpty();
    }

    @Test
    void givenRandomDamage_whenRead_thenNothingIsThrownAndNothingInventedBesideWhatParses() {
        Random random = new Random(7);
        byte[] good = BridgeJson.readings("s", slice(new Random(3))).bytes();
        for (int i = 0; i < 20_000; i++) {
            byte[] bad = good.clone();
            for (int k = 0; k <= random.nextInt(4); k++) {
                bad[random.nextInt(bad.length)] = (byte) random.nextInt(256);
            }
            JsonTree.parse(bad)
                    .flatMap(t -> BridgeReader.readings(t, HEADER))
                    .ifPresent(slice -> assertThat(slice.blocks()).hasSizeLessThanOrEqualTo(2));
        }
    }

    /** Text as bytes. */
    private static final class MessageBytes {
        static byte[] of(String text) {
            return text.getBytes(java.nio.charset.StandardCharsets.UTF_8);
        }
    }
}
