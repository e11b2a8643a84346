package draftwitness.link.ble;

import draftwitness.link.ByteLink;
import draftwitness.link.LinkAddress;
import draftwitness.link.LinkException;
import draftwitness.link.LinkNeeds;
import draftwitness.reading.Chunk;
import draftwitness.time.Ticker;
import java.io.OutputStream;
import java.nio.charset.StandardCharsets;
import java.time.Duration;
import java.util.List;

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
            return steady.lost == 0
                    && steady.values >= 10 * LISTEN.toSeconds() * 9 / 10
                    && again.lost == 0
                    && again.values >= ENOUGH_AFTER_RETURN;
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
