package draftwitness.link.ble;

import draftwitness.app.HealthReporter;
import draftwitness.app.RecordSwitch;
import draftwitness.app.SourcePlanner;
import draftwitness.capture.CaptureSession;
import draftwitness.capture.SourceHealth;
import draftwitness.driver.DriverCatalog;
import draftwitness.link.ByteLink;
import draftwitness.link.LinkAddress;
import draftwitness.link.LinkException;
import draftwitness.link.LinkNeeds;
import draftwitness.reading.Block;
import draftwitness.reading.Chunk;
import draftwitness.reading.SourceState;
import draftwitness.recording.RecordingFile;
import draftwitness.time.Ticker;
import java.io.OutputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.TimeUnit;
import java.util.function.Predicate;

/**
 * What {@link BleVmTest} runs inside the virtual machine, where BlueZ is real and two emulated controllers hear each
 * other: the sensor of ble-lab/peripheral.py on hci1, the program's own links on hci0. Prints what it measured; ends
 * with 0 only if all went well.
 */
final class BleInVm {
    private static final Duration LISTEN = Duration.ofSeconds(60);
    private static final int ENOUGH_AFTER_RETURN = 20;

    private final Ticker ticker = Ticker.system();
    private final BleLinks links = new BleLinks();
    private final OutputStream sensor;

    private BleInVm(OutputStream sensor) {
        this.sensor = sensor;
    }

    /** What came over one link; each value carries its own number. */
    private static final class Count {
        private long previous = -1;
        private long values;
        private long lost;

        void take(Chunk chunk) {
            if (!chunk.endpoint().equals(BleLinkTest.PRESSURE)) {
                return;
            }
            long number = 0;
            for (int i = 3; i >= 0; i--) {
                number = number << 8 | chunk.at(i);
            }
            if (previous >= 0 && number != previous + 1) {
                lost += Math.max(1, number - previous - 1);
            }
            previous = number;
            values++;
        }
    }

    public static void main(String[] arguments) throws Exception {
        Process python = new ProcessBuilder("/usr/bin/python3", "src/test/ble-lab/peripheral.py", "--rate", "10")
                .redirectError(ProcessBuilder.Redirect.INHERIT)
                .redirectOutput(ProcessBuilder.Redirect.INHERIT)
                .start();
        boolean good = false;
        try {
            good = new BleInVm(python.getOutputStream()).run();
        } finally {
            python.destroy();
            System.exit(good ? 0 : 1);
        }
    }

    private boolean run() throws Exception {
        BleDevices.Found device = find();
        LinkAddress address = LinkAddress.parse("ble:" + device.address() + "?adapter=hci0");
        Count steady;
        boolean good;
        try (ByteLink link = open(address)) {
            steady = receive(link, LISTEN.toNanos(), Long.MAX_VALUE);
            say("steady " + steady.values + " values, " + steady.lost + " lost");
            tell("off");
            say("gone " + untilGone(link));
        }
        tell("on");
        try (ByteLink link = open(address)) {
            Count again = receive(link, LISTEN.toNanos(), ENOUGH_AFTER_RETURN);
            say("returned " + again.values + " values, " + again.lost + " lost");
            good = steady.lost == 0
                    && steady.values >= 10 * LISTEN.toSeconds() * 9 / 10
                    && again.lost == 0
                    && again.values >= ENOUGH_AFTER_RETURN;
        }
        return good && session(address);
    }

    /** A whole session: recorded, the sensor leaves and returns, and the recording is read again. */
    private boolean session(LinkAddress address) throws Exception {
        Path folder = Files.createTempDirectory("ble-session");
        Path file = folder.resolve("ble.dwrec");
        RecordSwitch recorder = new RecordSwitch();
        RecordSwitch.Run run = recorder.start(file);
        CaptureSession session = new CaptureSession(
                new SourcePlanner(DriverCatalog.shipped())
                        .plan(List.of("draft.switch=ble-pressure@" + address), List.of()),
                links,
                ticker,
                "",
                "",
                List.of(recorder));
        session.start();
        await(session, h -> h.readings() >= 50);
        tell("off");
        await(session, h -> h.state() == SourceState.GONE || h.state() == SourceState.RETRYING);
        tell("on");
        await(session, h -> h.state() == SourceState.LIVE && h.reconnects() > 0);
        long before = session.health().get(0).readings();
        await(session, h -> h.readings() >= before + 20);
        SourceHealth health = session.health().get(0);
        session.close();
        say("session " + HealthReporter.line(health) + " finished " + run.awaitFinished(60, TimeUnit.SECONDS));
        List<Long> counts = new ArrayList<>();
        int[] gone = {0};
        try (RecordingFile recording = RecordingFile.open(file)) {
            recording.forEachSlice(Long.MIN_VALUE, Long.MAX_VALUE, slice -> {
                slice.events().forEach(e -> gone[0] += e.state() == SourceState.GONE ? 1 : 0);
                for (Block b : slice.blocks()) {
                    for (int i = 0; i < b.size(); i++) {
                        counts.add(b.count(i));
                    }
                }
            });
        }
        int jumps = 0;
        for (int i = 1; i < counts.size(); i++) {
            jumps += counts.get(i) == counts.get(i - 1) + 1 ? 0 : 1;
        }
        say("recorded " + counts.size() + " of " + health.readings() + ", " + jumps + " jumps, " + gone[0] + " gone");
        return counts.size() == health.readings() && jumps <= health.reconnects() && gone[0] == health.reconnects();
    }

    private static void await(CaptureSession session, Predicate<SourceHealth> wanted) throws InterruptedException {
        while (!wanted.test(session.health().get(0))) {
            if (session.awaitEnd(100, TimeUnit.MILLISECONDS)) {
                throw new IllegalStateException("the session ended: " + session.failure());
            }
        }
    }

    private BleDevices.Found find() {
        for (int i = 0; i < 5; i++) {
            BleDevices.Result result = new BleDevices().scan(Duration.ofSeconds(3));
            say("scan " + result);
            for (BleDevices.Found found : result.devices()) {
                if (found.adapter().equals("hci0") && found.services().contains(BleLinkTest.ESS)) {
                    return found;
                }
            }
        }
        throw new IllegalStateException("the sensor was not found");
    }

    /** Opens as a session does: again and again, but here only six times. */
    private ByteLink open(LinkAddress address) throws LinkException {
        LinkNeeds needs =
                new LinkNeeds(List.of(new LinkNeeds.Value(BleLinkTest.ESS, BleLinkTest.PRESSURE, 0, false)), true);
        LinkException last = null;
        for (int i = 0; i < 6; i++) {
            long start = ticker.nanos();
            try {
                ByteLink link = links.open(address, needs, ticker);
                say("opened in " + (ticker.nanos() - start) / 1_000_000 + " ms");
                return link;
            } catch (LinkException e) {
                say("not opened after " + (ticker.nanos() - start) / 1_000_000 + " ms: " + e.getMessage());
                last = e;
            }
        }
        throw last;
    }

    private Count receive(ByteLink link, long nanos, long enough) throws LinkException {
        Count count = new Count();
        long end = ticker.nanos() + nanos;
        while (ticker.nanos() < end && count.values < enough) {
            count.take(link.read().orElseThrow());
        }
        return count;
    }

    private static String untilGone(ByteLink link) {
        try {
            while (true) {
                Chunk unused = link.read().orElseThrow();
            }
        } catch (LinkException e) {
            return e.getMessage();
        }
    }

    private void tell(String command) throws java.io.IOException {
        sensor.write((command + "\n").getBytes(StandardCharsets.US_ASCII));
        sensor.flush();
    }

    private static void say(String line) {
        System.out.println("central " + line);
    }
}
