package draftwitness.app;

import draftwitness.dashboard.FoundSource;
import draftwitness.driver.Driver;
import draftwitness.driver.DriverCatalog;
import draftwitness.driver.DriverGuess;
import draftwitness.input.InputException;
import draftwitness.link.LinkAddress;
import draftwitness.link.LinkException;
import draftwitness.link.SerialPorts;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.concurrent.Executor;

/**
 * Instruments on the serial ports in reach. A port that has newly appeared is listened to once, without sending
 * anything, at the two most usual baud rates. {@link #known} returns at once; looking goes on at the executor.
 */
final class InReach {
    private static final int[] BAUDS = {9600, 115_200};
    private static final long LISTEN_NANOS = 1_500_000_000L;
    private static final double GOOD = 0.6;

    private final DriverCatalog catalog;
    private final OneAtATime looking;
    private final Map<String, List<FoundSource>> byPort = new HashMap<>(); // the background's own
    private volatile List<FoundSource> found = List.of();

    InReach(Executor background, DriverCatalog catalog) {
        this.looking = new OneAtATime(background, this::look);
        this.catalog = catalog;
    }

    /** What is known now; looks for more meanwhile. */
    List<FoundSource> known() {
        looking.ask();
        return found;
    }

    private void look() {
        List<SerialPorts.Found> ports = SerialPorts.list();
        Set<String> paths = new HashSet<>();
        ports.forEach(p -> paths.add(p.path()));
        byPort.keySet().retainAll(paths);
        publish(ports);
        for (SerialPorts.Found port : ports) {
            if (!byPort.containsKey(port.path())) {
                byPort.put(port.path(), listen(port));
                publish(ports);
            }
        }
    }

    private void publish(List<SerialPorts.Found> ports) {
        List<FoundSource> all = new ArrayList<>();
        ports.forEach(p -> all.addAll(byPort.getOrDefault(p.path(), List.of())));
        found = List.copyOf(all);
    }

    private List<FoundSource> listen(SerialPorts.Found port) {
        String trouble = "said nothing; it may wait to be asked";
        for (int baud : BAUDS) {
            String link = "serial:" + port.path() + "?baud=" + baud;
            try {
                Listening.Heard heard = Listening.to(LinkAddress.parse(link), LISTEN_NANOS, catalog);
                if (!heard.guesses().isEmpty() && heard.guesses().get(0).score() >= GOOD) {
                    return readings(port, link, heard.guesses().get(0));
                }
                trouble = heard.bytes() == 0 ? trouble : "sends something that no driver makes sense of";
            } catch (LinkException | InputException e) {
                return List.of(new FoundSource("", "", title(port), null, "", String.valueOf(e.getMessage())));
            }
        }
        return List.of(new FoundSource("", "", title(port), null, "", trouble));
    }

    private List<FoundSource> readings(SerialPorts.Found port, String link, DriverGuess guess) throws InputException {
        Driver driver = catalog.find(guess.driver());
        String proof = String.join(", ", guess.proof());
        return driver.readings().stream()
                .map(r -> new FoundSource(
                        guess.driver() + "@" + link,
                        r.name(),
                        title(port),
                        r.unit().quantity(),
                        proof,
                        ""))
                .toList();
    }

    private static String title(SerialPorts.Found port) {
        return port.path() + " " + port.description();
    }
}
