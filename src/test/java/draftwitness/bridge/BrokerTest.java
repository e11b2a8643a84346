package draftwitness.bridge;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import draftwitness.reading.Block;
import draftwitness.reading.Channel;
import draftwitness.reading.SessionHeader;
import draftwitness.reading.Slice;
import draftwitness.reading.SourceInfo;
import draftwitness.reading.Step;
import draftwitness.reading.Tap;
import draftwitness.reading.Unit;
import draftwitness.setup.Setup;
import draftwitness.testkit.MqttBroker;
import draftwitness.time.Ticker;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.TimeUnit;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;

/** A bridge and its followers at a real broker. */
@Timeout(120)
class BrokerTest {
    private static final Channel SWITCH = new Channel(Tap.DRAFT_SWITCH, "box", "draft.switch", Unit.PASCAL);
    private static final SessionHeader HEADER = new SessionHeader(
            Instant.parse("2026-01-17T22:10:00Z"),
            "Back hall furnace",
            SessionHeader.LIVE_TIME_STEP_NANOS,
            List.of(SWITCH),
            List.of(new SourceInfo("box", "ascii-line", "serial:/dev/ttyUSB0", "")),
            "");
    private static final Site SITE = new Site("back-hall");

    @TempDir
    Path folder;

    private static Slice slice(long cell) {
        long start = cell * Slice.CELL_NANOS;
        long[] times = {start, start + 20_000_000, start + 40_100_000};
        return new Slice(
                cell,
                List.of(new Block(SWITCH, new Step(Unit.PASCAL, 1), times, new long[] {-3000 - cell, -3001, -3002})),
                List.of());
    }

    private static Broker at(MqttBroker broker, @Nullable Path authority, @Nullable String user, @Nullable String word)
            throws Exception {
        return Broker.parse(
                (authority == null ? "mqtt" : "mqtts") + "://localhost:" + broker.port(), authority, user, word);
    }

    private static Bridge bridge(Broker broker, long room) throws Exception {
        Bridge bridge = new Bridge(Setup.defaults(), "test", room);
        bridge.toBroker(broker, SITE, "publisher", Ticker.system());
        assertThat(bridge.awaitBroker(20, TimeUnit.SECONDS)).isTrue();
        return bridge;
    }

    private static Follower follow(Broker broker, String client) throws Exception {
        return Follower.follow(broker, SITE, client, 20, Ticker.system());
    }

    private static List<Slice> take(Follower follower, long lastCell) throws Exception {
        List<Slice> taken = new ArrayList<>();
        while (taken.isEmpty() || taken.get(taken.size() - 1).index() < lastCell) {
            Optional<Slice> next = follower.next();
            if (next.isEmpty()) {
                break;
            }
            taken.add(next.get());
        }
        return taken;
    }

    /** Keeps saying cells until somebody follows, since cells are not kept for late comers. */
    private static Follower meet(Bridge bridge, Broker broker) throws Exception {
        Follower[] met = new Follower[1];
        Exception[] failed = new Exception[1];
        Thread meeting = new Thread(() -> {
            try {
                met[0] = follow(broker, "follower");
            } catch (Exception e) {
                failed[0] = e;
            }
        });
        meeting.start();
        for (long cell = 0; meeting.isAlive(); cell++) {
            bridge.slice(slice(cell));
            meeting.join(20);
        }
        if (failed[0] != null) {
            throw failed[0];
        }
        return met[0];
    }

    @Test
    void givenABroker_whenASessionIsBridged_thenAFollowerGetsEveryCellAsItWas() throws Exception {
        try (MqttBroker broker = MqttBroker.start(folder);
                Bridge bridge = bridge(at(broker, null, null, null), 1_000_000)) {
            bridge.begin(HEADER);
            try (Follower follower = meet(bridge, at(broker, null, null, null))) {
                assertThat(follower.header().channels()).isEqualTo(HEADER.channels());
                assertThat(follower.header().start()).isEqualTo(HEADER.start());
                long from = follower.firstCell();
                for (long cell = from + 1000; cell < from + 1100; cell++) {
                    bridge.slice(slice(cell));
                }
                bridge.end();
                bridge.finish();
                List<Slice> taken = take(follower, Long.MAX_VALUE); // until it is said that the session ended
                assertThat(taken.subList(taken.size() - 100, taken.size())).isEqualTo(slices(from + 1000, from + 1100));
                assertThat(bridge.states().get(0).dropped()).isZero();
                assertThat(bridge.states().get(0).waiting()).isZero();
            }
        }
    }

    private static List<Slice> slices(long from, long to) {
        List<Slice> slices = new ArrayList<>();
        for (long cell = from; cell < to; cell++) {
            slices.add(slice(cell));
        }
        return slices;
    }

    @Test
    void givenABrokerThatIsKilledAndStartedAgain_whenTheRoomSuffices_thenNoCellIsLost() throws Exception {
        try (MqttBroker broker = MqttBroker.startRemembering(folder);
                Bridge bridge = bridge(at(broker, null, null, null), 10_000_000)) {
            bridge.begin(HEADER);
            try (Follower follower = meet(bridge, at(broker, null, null, null))) {
                long from = follower.firstCell() + 1000;
                for (long cell = from; cell < from + 50; cell++) {
                    bridge.slice(slice(cell));
                }
                List<Slice> taken = take(follower, from + 49);
                broker.kill();
                for (long cell = from + 50; cell < from + 500; cell++) {
                    bridge.slice(slice(cell));
                }
                broker.restart();
                taken.addAll(take(follower, from + 499));
                assertThat(taken.subList(taken.size() - 500, taken.size())).isEqualTo(slices(from, from + 500));
                assertThat(bridge.states().get(0).dropped()).isZero();
            }
        }
    }

    @Test
    void givenABrokerThatIsAway_whenTheRoomIsFull_thenTheOldestGoAndAreCountedAndTheRestArrives() throws Exception {
        try (MqttBroker broker = MqttBroker.startRemembering(folder);
                Bridge bridge = bridge(at(broker, null, null, null), 100_000)) {
            bridge.begin(HEADER);
            try (Follower follower = meet(bridge, at(broker, null, null, null))) {
                long from = follower.firstCell() + 1000;
                bridge.slice(slice(from));
                take(follower, from);
                broker.kill();
                for (long cell = from + 1; cell <= from + 2000; cell++) {
                    bridge.slice(slice(cell));
                }
                long dropped = bridge.states().get(0).dropped();
                broker.restart();
                List<Slice> rest = take(follower, from + 2000);
                long finallyDropped = bridge.states().get(0).dropped();
                assertThat(dropped).isPositive();
                assertThat(rest).hasSize((int) (2000 - finallyDropped));
                assertThat(rest.get(rest.size() - 1)).isEqualTo(slice(from + 2000));
            }
        }
    }

    @Test
    void givenCertificates_whenTheAuthorityIsKnown_thenItConnects_andElseItSaysThatItIsNotTrusted() throws Exception {
        MqttBroker.makeCertificates(folder);
        try (MqttBroker broker = MqttBroker.start(
                folder,
                List.of(
                        "allow_anonymous true",
                        "certfile " + folder.resolve("server.pem"),
                        "keyfile " + folder.resolve("server.key")))) {
            try (BrokerLink link = new BrokerLink(at(broker, folder.resolve("ca.pem"), null, null), "a")) {
                link.connect(null, 0);
                assertThat(link.isConnected()).isTrue();
            }
            Broker strange = new Broker("localhost", broker.port(), true, null, null, null);
            try (BrokerLink link = new BrokerLink(strange, "b")) {
                assertThatThrownBy(() -> link.connect(null, 0))
                        .isInstanceOf(BridgeException.class)
                        .hasMessageContaining("certificate is not trusted");
            }
        }
    }

    @Test
    void givenAPassword_whenItIsWrong_thenTheRefusalIsTold_andWhenRight_thenItConnects() throws Exception {
        Path passwords = folder.resolve("passwords");
        Process made =
                new ProcessBuilder("mosquitto_passwd", "-c", "-b", passwords.toString(), "fleet", "right").start();
        assertThat(made.waitFor()).isZero();
        Files.setPosixFilePermissions(passwords, java.nio.file.attribute.PosixFilePermissions.fromString("rw-r--r--"));
        try (MqttBroker broker =
                MqttBroker.start(folder, List.of("allow_anonymous false", "password_file " + passwords))) {
            try (BrokerLink link = new BrokerLink(at(broker, null, "fleet", "wrong"), "a")) {
                assertThatThrownBy(() -> link.connect(null, 0)).hasMessageContaining("refused (not authorized)");
            }
            try (BrokerLink link = new BrokerLink(at(broker, null, "fleet", "right"), "a")) {
                link.connect(null, 0);
                assertThat(link.isConnected()).isTrue();
            }
        }
    }

    @Test
    void givenNobodyThere_whenConnecting_thenItSaysSoInOneLine() throws Exception {
        try (BrokerLink link = new BrokerLink(new Broker("127.0.0.1", 9, false, null, null, null), "a")) {
            assertThatThrownBy(() -> link.connect(null, 0))
                    .isInstanceOf(BridgeException.class)
                    .hasMessageContaining("mqtt://127.0.0.1:9: cannot connect");
        }
    }
}
