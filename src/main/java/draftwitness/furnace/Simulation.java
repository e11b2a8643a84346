package draftwitness.furnace;

import java.util.ArrayList;
import java.util.List;

/**
 * One run of a scenario: give it a time, and it puts out what the instruments read until then.
 *
 * <p>The same scenario and seed give the same readings and the same truth, whatever the steps in which it is advanced.
 * Not thread-safe; one owner. Times are nanoseconds of simulated time from 0.
 */
public final class Simulation {
    private static final double NANOS = 1e9;

    private final Scenario scenario;
    private final long seed;
    private final Furnace furnace;
    private final Instrument[] instruments;
    private final List<SimulatedSensor> sensors;
    private final TruthKeeper truth;
    private long reached;
    private long tickNanos;

    private Simulation(Scenario scenario, long seed, int substeps) {
        this.scenario = scenario;
        this.seed = seed;
        furnace = new Furnace(scenario.house(), seed, substeps);
        truth = new TruthKeeper(furnace);
        List<Instrument> made = new ArrayList<>();
        List<SimulatedSensor> described = new ArrayList<>();
        for (InstrumentSpec spec : scenario.house().instruments()) {
            Noise noise = Noise.of(seed, "instrument " + spec.tap().role());
            made.add(new Instrument(spec, noise, furnace.at(spec.connectedTo())));
            described.add(new SimulatedSensor(spec.tap(), spec.unit(), spec.decimals(), spec.rateHz()));
        }
        instruments = made.toArray(new Instrument[0]);
        sensors = List.copyOf(described);
    }

    /** A run from time 0. */
    public static Simulation start(Scenario scenario, long seed) {
        return new Simulation(scenario, seed, 1);
    }

    /** A run with finer steps of the physics, to check that they do not matter. */
    static Simulation start(Scenario scenario, long seed, int substeps) {
        return new Simulation(scenario, seed, substeps);
    }

    public Scenario scenario() {
        return scenario;
    }

    /** The instruments; the index is the one in {@link SensorOutput}. */
    public List<SimulatedSensor> sensors() {
        return sensors;
    }

    /**
     * Puts out all readings up to and including a time.
     *
     * @param nanos simulated time; earlier than before does nothing
     */
    public void advanceTo(long nanos, SensorOutput out) {
        while (true) {
            int due = earliest();
            long next = due < 0 ? Long.MAX_VALUE : instruments[due].nextNanos();
            long until = Math.min(next, nanos);
            while (tickNanos < until) {
                tick();
            }
            if (next > nanos) {
                break;
            }
            instruments[due].sample(tickNanos / NANOS, furnace.pressureSwitch().changedAt(), due, out);
        }
        reached = Math.max(reached, nanos);
    }

    private int earliest() {
        int due = -1;
        long first = Long.MAX_VALUE;
        for (int i = 0; i < instruments.length; i++) {
            if (instruments[i].nextNanos() < first) {
                first = instruments[i].nextNanos();
                due = i;
            }
        }
        return due;
    }

    private void tick() {
        furnace.tick();
        tickNanos = Math.round(furnace.now() * NANOS);
        truth.tick();
        for (Instrument instrument : instruments) {
            instrument.tick(furnace.at(instrument.spec().connectedTo()));
        }
    }

    Furnace furnace() {
        return furnace;
    }

    /** What really happened up to the time reached. */
    List<Cycle> truthCycles() {
        return truth.cyclesUntil(reached / NANOS);
    }

    /** What really happened up to the time reached, as JSON; from the model's own state. */
    public String truthJson() {
        return TruthJson.write(scenario, seed, reached / NANOS, truth);
    }
}
