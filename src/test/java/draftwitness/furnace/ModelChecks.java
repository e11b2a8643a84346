package draftwitness.furnace;

import draftwitness.cycle.CycleAnalyzer;
import draftwitness.cycle.CycleReport;
import draftwitness.cycle.TapLevels;
import draftwitness.diagnosis.Answer;
import draftwitness.diagnosis.Check;
import draftwitness.input.InputException;
import draftwitness.reading.Tap;
import draftwitness.setup.Setup;
import draftwitness.signal.Robust;
import java.util.EnumSet;
import java.util.List;
import java.util.Map;
import java.util.Set;

/**
 * Answers a person's checks out of the simulated house: what an instrument would measure is measured in the model, what
 * one looks at is there or not.
 */
final class ModelChecks {
    private static final Set<Cause> VENT_SIDE =
            EnumSet.of(Cause.VENT_RESTRICTED, Cause.CONDENSATE_IN_VENT, Cause.WIND_AT_TERMINAL);

    private final Scenario scenario;
    private final long seed;
    private final Map<String, String> measured;
    private final CycleReport before;

    /**
     * Checks in one house.
     *
     * @param measured what instruments at every tap showed, kind of evidence to outcome
     * @param before what the furnace did
     */
    ModelChecks(Scenario scenario, long seed, Map<String, String> measured, CycleReport before) {
        this.scenario = scenario;
        this.seed = seed;
        this.measured = measured;
        this.before = before;
    }

    /** What comes of a check; null if the house does not let it be done (a furnace that never starts). */
    Answer answer(Check check, String kind) throws InputException {
        String outcome = measured.get(kind);
        if (outcome == null) {
            outcome = switch (check.id()) {
                case "leak-down" -> leaks(Cause.TUBE_LEAKING) || leaks(Cause.DIAPHRAGM_PINHOLE) ? "falls" : "holds";
                case "leak-down-parts" ->
                    leaks(Cause.TUBE_LEAKING)
                            ? "tube-falls"
                            : leaks(Cause.DIAPHRAGM_PINHOLE) ? "switch-falls" : "both-hold";
                case "switch-ramp" -> ramp();
                case "wiggle-wires" -> severity(Cause.CONTACT_WIRING) > 0 ? "jumps" : "steady";
                case "look-drain" ->
                    severity(Cause.TRAP_DRY) > 0 ? "dry" : severity(Cause.DRAIN_BLOCKED) > 0 ? "backed-up" : "good";
                case "look-vent" ->
                    severity(Cause.CONDENSATE_IN_VENT) > 0
                            ? "water"
                            : severity(Cause.VENT_RESTRICTED) > 0 ? "blocked" : "clear";
                case "look-intake" -> severity(Cause.INTAKE_RESTRICTED) > 0 ? "blocked" : "clear";
                case "look-inducer" -> severity(Cause.INDUCER_WEAK) > 0 ? "poor" : "good";
                case "heat-exchanger" ->
                    severity(Cause.HEAT_EXCHANGER_BREACHED) > 0
                            ? "breached"
                            : severity(Cause.HEAT_EXCHANGER_PLUGGED) > 0 ? "plugged" : "sound";
                case "watch-wind" -> severity(Cause.WIND_AT_TERMINAL) > 0 ? "follows" : "unrelated";
                case "igniter" -> severity(Cause.IGNITION_OR_FLAME_SENSE) > 0 ? "poor" : "good";
                case "vent-off" -> ventOff();
                default -> check.outcomes().get(0).id();
            };
        }
        return new Answer(check.id(), outcome, "model");
    }

    private double severity(Cause cause) {
        return scenario.house().faults().stream()
                .filter(f -> f.cause() == cause)
                .mapToDouble(Fault::severity)
                .max()
                .orElse(0);
    }

    /** Whether a pinched-off tube loses its suction within a minute: time constant of the model's own tube. */
    private boolean leaks(Cause cause) {
        double severity = severity(cause);
        return severity > 0 && Tube.CLEAN_SECONDS / Tube.leak(severity) < 60;
    }

    /** Three slow ramps, a minute made in all: a failing contact opens as often as it does in the running furnace. */
    private String ramp() {
        double faulty = severity(Cause.SWITCH_FAULTY);
        double opens = 1 - StrictMath.exp(-faulty * faulty * 0.02 * 60);
        double welds = faulty > 0.5 ? 1 - StrictMath.pow(1 - 0.6 * faulty, 3) : 0;
        Noise noise = Noise.of(seed, "ramp");
        if (noise.chance(opens) || noise.chance(welds)) {
            return "erratic";
        }
        double off = 110 * severity(Cause.SWITCH_DRIFTED);
        return off > 2 * scenario.house().rating().tolerancePascals() ? "off-rating" : "at-rating";
    }

    /** Runs the same house with the vent off at the inducer and compares level and swing at the switch. */
    private String ventOff() throws InputException {
        House h = scenario.house();
        House.FlueSide f = h.flue();
        House.FlueSide open = new House.FlueSide(
                f.pipes(), f.switchAtCollector(), f.strength(), 0.2 * f.ventFactor(), f.columnMetres(), f.stages());
        List<Fault> rest =
                h.faults().stream().filter(x -> !VENT_SIDE.contains(x.cause())).toList();
        Scenario without = new Scenario(
                scenario.name(),
                scenario.title(),
                scenario.lesson(),
                400,
                h.with(rest).with(open, h.rating()));
        CycleAnalyzer analyzer = new CycleAnalyzer(Setup.parse("s", without.setupText()));
        AnalysisFeed.run(Simulation.start(without, seed), 400, analyzer, t -> {});
        double[] then = levels(before);
        double[] now = levels(analyzer.report());
        return now[0] > 1.08 * then[0] || (then[1] > 0.02 * then[0] && now[1] < 0.5 * then[1])
                ? "recovers"
                : "unchanged";
    }

    private static double[] levels(CycleReport report) {
        List<TapLevels> all = report.cycles().stream()
                .flatMap(c -> c.levels().stream())
                .filter(l -> l.tap() == Tap.DRAFT_SWITCH && !Double.isNaN(l.cold()))
                .toList();
        return new double[] {
            Robust.median(all.stream().mapToDouble(TapLevels::cold).toArray()),
            Robust.median(all.stream()
                    .mapToDouble(TapLevels::swing)
                    .filter(v -> !Double.isNaN(v))
                    .toArray())
        };
    }
}
