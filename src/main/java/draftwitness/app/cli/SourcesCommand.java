package draftwitness.app.cli;

import draftwitness.app.Listening;
import draftwitness.driver.DriverCatalog;
import draftwitness.driver.DriverGuess;
import draftwitness.input.Durations;
import draftwitness.input.InputException;
import draftwitness.link.LinkAddress;
import draftwitness.link.LinkException;
import draftwitness.link.SerialPorts;
import draftwitness.link.ble.BleDevices;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

/** {@code sources}: what could be connected. */
@Command(
        name = "sources",
        mixinStandardHelpOptions = true,
        description =
                "Lists the serial ports in reach. With --listen they are opened and listened to, and the drivers that"
                        + " fit what comes are told with the readings they make of it. Nothing is ever sent.")
final class SourcesCommand implements Callable<Integer> {
    private static final List<Integer> USUAL_BAUDS = List.of(9600, 115_200, 19_200, 4800, 38_400, 57_600);

    /** A guess this good ends the search for a baud rate. */
    private static final double GOOD = 0.6;

    private static final Duration BLE_SCAN = Duration.ofSeconds(8);

    private final Console console;

    @Mixin
    private DriverOptions drivers = new DriverOptions();

    @Parameters(
            arity = "0..*",
            paramLabel = "LINK",
            description = "With --listen: links to listen to, such as"
                    + " serial:/dev/ttyUSB0 or tcp:HOST:PORT; all listed ports by default.")
    private List<String> links = new ArrayList<>();

    @Option(names = "--ble", description = "Also looks for Bluetooth low energy devices for some seconds (Linux).")
    private boolean ble;

    @Option(names = "--listen", description = "Opens the ports and listens.")
    private boolean listen;

    @Option(
            names = "--for",
            paramLabel = "TIME",
            description = "How long to listen to each port and baud rate; 3s by default.")
    private String length = "3s";

    SourcesCommand(Console console) {
        this.console = console;
    }

    @Override
    public Integer call() throws InputException {
        if (!listen && !links.isEmpty()) {
            throw new InputException("'" + links.get(0) + "': links go with --listen");
        }
        List<SerialPorts.Found> ports = SerialPorts.list();
        if (listen) {
            return listen(ports);
        }
        for (SerialPorts.Found port : ports) {
            console.out().println("serial:" + port.path() + "  " + port.description());
        }
        if (ports.isEmpty()) {
            console.err().println(NONE);
        }
        if (ble) {
            listBle();
        } else {
            console.err().println("Bluetooth devices are looked for with --ble");
        }
        return 0;
    }

    private void listBle() {
        BleDevices.Result result = new BleDevices().scan(BLE_SCAN);
        for (BleDevices.Found device : result.devices()) {
            console.out()
                    .println("ble:" + device.address() + "?adapter=" + device.adapter() + "  " + device.name()
                            + (device.services().isEmpty() ? "" : "  " + String.join(" ", device.services())));
        }
        if (!result.problem().isEmpty()) {
            console.err().println(result.problem());
        } else if (result.devices().isEmpty()) {
            console.err().println("no Bluetooth device was heard");
        }
    }

    private static final String NONE =
            "no serial port found; plug an instrument in, or give the path of its port (serial:PATH)";

    private int listen(List<SerialPorts.Found> ports) throws InputException {
        List<String> all = new ArrayList<>(links);
        if (all.isEmpty()) {
            ports.forEach(p -> all.add("serial:" + p.path()));
        }
        if (all.isEmpty()) {
            console.err().println(NONE);
            return 0;
        }
        long nanos = Durations.parseNanos(length);
        DriverCatalog catalog = drivers.catalog();
        int code = 0;
        for (String link : all) {
            try {
                tell(search(link, nanos, catalog));
            } catch (LinkException e) {
                console.err().println("draftwitness: " + e.getMessage());
                code = CommandLineProgram.FAILED;
            }
        }
        return code;
    }

    /** Listens at the given baud rate, or at the usual ones until a driver fits well. */
    private Listening.Heard search(String link, long nanos, DriverCatalog catalog)
            throws InputException, LinkException {
        LinkAddress given = LinkAddress.parse(link);
        if (given.kind() != LinkAddress.Kind.SERIAL
                || given.options().text("baud").isPresent()) {
            console.err().println("listening to " + given);
            return Listening.to(given, nanos, catalog);
        }
        Listening.Heard best = new Listening.Heard(given, 0, List.of());
        for (int baud : USUAL_BAUDS) {
            LinkAddress address = LinkAddress.parse(link + (link.contains("?") ? "&" : "?") + "baud=" + baud);
            console.err().println("listening to " + address);
            Listening.Heard heard = Listening.to(address, nanos, catalog);
            if (score(heard) > score(best) || (heard.bytes() > 0 && best.bytes() == 0)) {
                best = heard;
            }
            boolean silentTwice = best.bytes() == 0 && baud == USUAL_BAUDS.get(1);
            if (score(heard) >= GOOD || silentTwice) {
                break; // found; or it waits to be asked
            }
        }
        return best;
    }

    private static double score(Listening.Heard heard) {
        return heard.guesses().isEmpty() ? 0 : heard.guesses().get(0).score();
    }

    private void tell(Listening.Heard heard) {
        console.out().println(heard.address() + "  " + heard.bytes() + " bytes");
        if (heard.bytes() == 0) {
            console.out().println("  said nothing; it may wait to be asked (see drivers scpi-query and modbus-rtu)");
        } else if (heard.guesses().isEmpty()) {
            console.out().println("  no driver makes sense of it; docs/drivers.md shows how to write one");
        }
        for (DriverGuess guess : heard.guesses()) {
            console.out()
                    .println(String.format(
                            Locale.ROOT,
                            "  %3.0f %%  %s  %s: %s",
                            guess.score() * 100,
                            guess.driver(),
                            guess.readings() + " readings",
                            String.join(", ", guess.proof())));
        }
    }
}
