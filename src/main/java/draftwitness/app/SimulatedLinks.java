package draftwitness.app;

import draftwitness.furnace.Scenario;
import draftwitness.furnace.Scenarios;
import draftwitness.furnace.SimulatedSensor;
import draftwitness.furnace.Simulation;
import draftwitness.input.InputException;
import draftwitness.link.ByteLink;
import draftwitness.link.Feed;
import draftwitness.link.LinkAddress;
import draftwitness.link.LinkException;
import draftwitness.link.LinkNeeds;
import draftwitness.link.LinkOpener;
import draftwitness.link.PacedLink;
import draftwitness.reading.Chunk;
import draftwitness.reading.Step;
import draftwitness.time.Ticker;
import java.util.ArrayDeque;
import java.util.Deque;
import java.util.List;
import java.util.Optional;

/**
 * Opens {@code simulated:SCENARIO}: the model house's instruments as lines of text, one reading a line, as the driver
 * {@code simulated-house} reads them.
 */
final class SimulatedLinks implements LinkOpener {
    /** The model is asked for so much time at once. */
    private static final long STRIDE_NANOS = 20_000_000;

    private final long nanos;

    /** Scenarios of their own length. */
    SimulatedLinks() {
        this(-1);
    }

    /** Scenarios of so much time; their own length when negative. */
    SimulatedLinks(long nanos) {
        this.nanos = nanos;
    }

    @Override
    public ByteLink open(LinkAddress address, LinkNeeds needs, Ticker ticker) throws LinkException {
        try {
            Scenario scenario = Scenarios.find(address.target());
            long seed = address.options().integer("seed", 1, 0, Integer.MAX_VALUE);
            return new PacedLink(address.toString(), new Lines(scenario, seed, nanos), ticker);
        } catch (InputException e) {
            throw new LinkException(String.valueOf(e.getMessage()), e);
        }
    }

    /** The readings of a simulation as text. One owner thread. */
    private static final class Lines implements Feed {
        private final Simulation simulation;
        private final List<SimulatedSensor> sensors;
        private final long endNanos;
        private final Deque<Chunk> ready = new ArrayDeque<>();
        private long advanced;

        Lines(Scenario scenario, long seed, long nanos) {
            simulation = Simulation.start(scenario, seed);
            sensors = simulation.sensors();
            endNanos = nanos >= 0 ? nanos : Math.round(scenario.durationSeconds() * 1e9);
        }

        @Override
        public Optional<Chunk> next() {
            while (ready.isEmpty() && advanced < endNanos) {
                advanced = Math.min(advanced + STRIDE_NANOS, endNanos);
                simulation.advanceTo(advanced, this::add);
            }
            return Optional.ofNullable(ready.poll());
        }

        private void add(int sensor, long timeNanos, long count) {
            SimulatedSensor s = sensors.get(sensor);
            ready.add(TapLine.of(s.tap(), count, new Step(s.unit(), s.decimals()), timeNanos));
        }
    }
}
