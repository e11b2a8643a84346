package draftwitness.app;

import draftwitness.capture.CaptureSession;
import draftwitness.capture.SourcePlan;
import draftwitness.driver.DriverCatalog;
import draftwitness.furnace.Scenario;
import draftwitness.furnace.Scenarios;
import draftwitness.furnace.SimulatedSensor;
import draftwitness.furnace.Simulation;
import draftwitness.input.InputException;
import draftwitness.link.LinkAddress;
import draftwitness.link.LinkAddress.Kind;
import draftwitness.link.Links;
import draftwitness.link.SerialPorts;
import draftwitness.link.ble.BleLinks;
import draftwitness.reading.SessionListener;
import draftwitness.setup.Setup;
import draftwitness.time.Ticker;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;

/** Makes live sessions out of plans, with every kind of link that the program knows. */
public final class Sessions {
    /** What the program shows when it is told nothing. */
    public static final String DEMO = "demo-house";

    /** Wall clock of simulated recordings, so that the same scenario and seed give the same file. */
    private static final Instant SIMULATED_START = Instant.parse("2026-01-17T22:10:00Z");

    /** So much faster than real time that the clock never holds a simulation up. */
    private static final double UNBOUND = 100_000;

    private static final Links LINKS = links(new SimulatedLinks());

    private Sessions() {}

    private static Links links(SimulatedLinks simulated) {
        return new Links(Map.of(
                Kind.SIMULATED, simulated,
                Kind.RECORDING, new RecordingLinks(),
                Kind.MQTT, new FollowLinks(),
                Kind.BLE, new BleLinks()));
    }

    /**
     * A session that has not started; it runs at the speed its links ask for.
     *
     * @param stop the program's, so that ports stay open until the session has ended in good order
     */
    public static CaptureSession live(
            List<SourcePlan> plans, Setup setup, StopSignal stop, List<SessionListener> listeners)
            throws InputException {
        check(plans);
        if (plans.stream().anyMatch(p -> p.address().kind() == Kind.SERIAL)) {
            SerialPorts.cleanUpOnlyAfter(stop::awaitFinished);
        }
        LinkAddress first = plans.get(0).address();
        Ticker running = Ticker.system().scaled(first.speed());
        Ticker clock = FollowLinks.start(first).map(running::anchoredAt).orElse(running);
        return new CaptureSession(plans, LINKS, clock, setup.title(), setup.text(), listeners);
    }

    /** Refuses links that cannot work whatever is plugged in. */
    private static void check(List<SourcePlan> plans) throws InputException {
        for (SourcePlan plan : plans) {
            LinkAddress address = plan.address();
            switch (address.kind()) {
                case SIMULATED -> Scenarios.find(address.target());
                case RECORDING -> {
                    if (!Files.isRegularFile(Path.of(address.target()))) {
                        throw new InputException(address.target() + ": no such recording");
                    }
                }
                case SERIAL, TCP, FILE, BLE, MQTT -> Links.check(address);
            }
        }
    }

    /**
     * A simulated session that runs as fast as it can, always with the same start.
     *
     * @param scenarioText the scenario's name or file
     * @param nanos how much of the scenario, whatever its own length
     */
    public static CaptureSession simulated(String scenarioText, long seed, long nanos, List<SessionListener> listeners)
            throws InputException {
        Ticker clock = Ticker.system().scaled(UNBOUND).anchoredAt(SIMULATED_START);
        Setup setup = setupOf(Scenarios.find(scenarioText));
        Links links = links(new SimulatedLinks(nanos));
        return new CaptureSession(plans(scenarioText, seed, 1), links, clock, setup.title(), setup.text(), listeners);
    }

    /** The setup that belongs to a scenario. */
    public static Setup setupOf(Scenario scenario) throws InputException {
        return Setup.parse(scenario.name() + " (setup)", scenario.setupText());
    }

    /**
     * The source of a simulated house, on all taps that its scenario has instruments on.
     *
     * @param scenarioText the scenario's name or file
     * @param speed how many times as fast as real time
     */
    public static List<SourcePlan> plans(String scenarioText, long seed, double speed) throws InputException {
        String link = "simulated:" + scenarioText + "?seed=" + seed + (speed == 1 ? "" : "&speed=" + speed);
        List<String> taps = new ArrayList<>();
        for (SimulatedSensor s :
                Simulation.start(Scenarios.find(scenarioText), seed).sensors()) {
            taps.add(s.tap().role() + "=house." + s.tap().role());
        }
        return new SourcePlanner(DriverCatalog.shipped()).plan(List.of("house=simulated-house@" + link), taps);
    }

    /** The built-in demo house. */
    public static Scenario demo() {
        try {
            return Scenarios.find(DEMO);
        } catch (InputException e) {
            throw new IllegalStateException("the demo house is missing from the program", e);
        }
    }
}
