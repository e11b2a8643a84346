package draftwitness.bridge;

import draftwitness.reading.Block;
import draftwitness.reading.Channel;
import draftwitness.reading.Slice;
import draftwitness.reading.Step;
import draftwitness.reading.Tap;
import draftwitness.reading.Unit;
import draftwitness.time.Ticker;
import java.io.IOException;
import java.net.ServerSocket;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Random;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.atomic.AtomicLong;
import java.util.concurrent.locks.LockSupport;

/**
 * Many houses at one broker (mosquitto): what a house costs in bytes, and what the broker needs. Prints a table for
 * docs/bridge.md.
 *
 * <p>Arguments: houses (200), seconds (60).
 */
public final class FleetTable {
    private static final Tap[] TAPS = {Tap.DRAFT_SWITCH, Tap.DRAFT_INDUCER, Tap.GAS_MANIFOLD, Tap.CONTACT_SWITCH};
    private static final int READINGS_A_CELL = 5;

    private FleetTable() {}

    public static void main(String[] args) throws Exception {
        int houses = args.length > 0 ? Integer.parseInt(args[0]) : 200;
        int seconds = args.length > 1 ? Integer.parseInt(args[1]) : 60;
        Path folder = Files.createTempDirectory("fleet");
        int port = freePort();
        Path configuration = folder.resolve("mosquitto.conf");
        Files.write(
                configuration,
                List.of(
                        "listener " + port + " 127.0.0.1",
                        "allow_anonymous true",
                        "max_queued_messages 100000",
                        "max_inflight_messages 0",
                        "user root"));
        Process broker = new ProcessBuilder("mosquitto", "-c", configuration.toString())
                .redirectErrorStream(true)
                .redirectOutput(folder.resolve("log").toFile())
                .start();
        try {
            LockSupport.parkNanos(1_000_000_000L);
            run(houses, seconds, new Broker("127.0.0.1", port, false, null, null, null), broker.pid());
        } finally {
            broker.destroyForcibly().waitFor();
        }
    }

    private static void run(int houses, int seconds, Broker broker, long brokerPid) throws Exception {
        AtomicLong received = new AtomicLong();
        AtomicLong receivedBytes = new AtomicLong();
        try (BrokerLink reader = new BrokerLink(broker, "reader")) {
            reader.receive((topic, payload) -> {
                received.incrementAndGet();
                receivedBytes.addAndGet(payload.length);
            });
            reader.connect(null, 0);
            reader.subscribe(Site.ROOT + "/+/readings");
            List<MqttPublisher> publishers = new ArrayList<>();
            for (int h = 0; h < houses; h++) {
                MqttPublisher p = new MqttPublisher(
                        broker, new Site("house-" + h), "house-" + h, 4_000_000, Ticker.system());
                p.start();
                publishers.add(p);
            }
            for (MqttPublisher p : publishers) {
                if (!p.awaitConnected(60, TimeUnit.SECONDS)) {
                    throw new IOException("a house could not connect: " + p.state().words());
                }
            }
            long brokerBefore = cpuTicks(brokerPid);
            long start = System.nanoTime();
            Random random = new Random(1);
            for (long cell = 0; cell < seconds * 10L; cell++) {
                Slice slice = slice(cell, random);
                for (MqttPublisher p : publishers) {
                    p.send(BridgeJson.readings("s", slice));
                }
                LockSupport.parkNanos(start + (cell + 1) * Slice.CELL_NANOS - System.nanoTime());
            }
            long sent = houses * seconds * 10L;
            for (int i = 0; i < 600 && received.get() < sent; i++) {
                LockSupport.parkNanos(50_000_000L);
            }
            double took = (System.nanoTime() - start) / 1e9;
            long dropped = publishers.stream().mapToLong(p -> p.state().dropped()).sum();
            double brokerCpu = (cpuTicks(brokerPid) - brokerBefore) / 100.0;
            System.out.printf(
                    Locale.ROOT,
                    "| %d houses, %d s, 4 channels of 50 Hz each |%n|---|%n| messages sent / received / dropped | %d / %d / %d |%n"
                            + "| payload a house | %.0f bytes/s, %.1f bytes a reading |%n| all houses | %.2f MB/s |%n"
                            + "| broker | %.2f of a core, %.0f MB resident |%n| wall time | %.1f s |%n",
                    houses,
                    seconds,
                    sent,
                    received.get(),
                    dropped,
                    receivedBytes.get() / (double) houses / seconds,
                    receivedBytes.get() / (double) received.get() / (TAPS.length * READINGS_A_CELL),
                    receivedBytes.get() / (double) seconds / 1e6,
                    brokerCpu / took,
                    residentMegabytes(brokerPid),
                    took);
            publishers.parallelStream().forEach(MqttPublisher::close);
        }
    }

    private static Slice slice(long cell, Random random) {
        List<Block> blocks = new ArrayList<>();
        for (Tap tap : TAPS) {
            Unit unit = tap.quantity().baseUnit();
            long[] times = new long[READINGS_A_CELL];
            long[] counts = new long[READINGS_A_CELL];
            for (int i = 0; i < times.length; i++) {
                times[i] = cell * Slice.CELL_NANOS + i * 20_000_000L + random.nextInt(10) * 100_000L;
                counts[i] = tap == Tap.CONTACT_SWITCH ? 1 : -3000 - random.nextInt(100);
            }
            int decimals = tap == Tap.CONTACT_SWITCH ? 0 : 1;
            blocks.add(new Block(new Channel(tap, "box", tap.role(), unit), new Step(unit, decimals), times, counts));
        }
        return new Slice(cell, blocks, List.of());
    }

    private static int freePort() throws IOException {
        try (ServerSocket free = new ServerSocket(0)) {
            return free.getLocalPort();
        }
    }

    /** Hundredths of a second of processor time that a process has used. */
    private static long cpuTicks(long pid) throws IOException {
        String stat = Files.readString(Path.of("/proc/" + pid + "/stat"));
        String[] fields = stat.substring(stat.lastIndexOf(')') + 2).split(" ");
        return Long.parseLong(fields[11]) + Long.parseLong(fields[12]);
    }

    private static double residentMegabytes(long pid) throws IOException {
        for (String line : Files.readAllLines(Path.of("/proc/" + pid + "/status"))) {
            if (line.startsWith("VmRSS:")) {
                return Long.parseLong(line.replaceAll("[^0-9]", "")) / 1024.0;
            }
        }
        return Double.NaN;
    }
}
