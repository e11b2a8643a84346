package draftwitness.furnace;

import java.util.EnumMap;
import java.util.List;
import java.util.Map;

/**
 * The faults of a house at one moment: severities by cause, and the random events that some of them bring. Not
 * thread-safe; one owner.
 */
final class Troubles {
    private final List<Fault> faults;
    private final Map<Cause, Double> severities = new EnumMap<>(Cause.class);
    private final Noise noise;
    private double applianceUntil = -1;
    private double nextAppliance;
    private boolean applianceOn;
    private boolean lights = true;

    Troubles(List<Fault> faults, Noise noise) {
        this.faults = faults;
        this.noise = noise;
        nextAppliance = noise.between(20, 60);
        update(0);
    }

    /** Severities at a time; a few times a second is enough. */
    void update(double now) {
        severities.clear();
        for (Fault fault : faults) {
            severities.merge(fault.cause(), fault.at(now), Math::max);
        }
        if (applianceOn && now >= applianceUntil) {
            applianceOn = false;
            nextAppliance = now + noise.waiting(150);
        } else if (!applianceOn && now >= nextAppliance) {
            applianceOn = true;
            applianceUntil = now + noise.between(8, 60);
        }
    }

    /** Severity of a cause now, 0 to 1. */
    double of(Cause cause) {
        Double severity = severities.get(cause);
        return severity == null ? 0 : severity;
    }

    /** What is wrong with the gas side now. */
    GasTrain.GasFaults gas(double inletPascals) {
        double sag = of(Cause.GAS_SUPPLY_SAG);
        return new GasTrain.GasFaults(
                0.45 * sag,
                applianceOn ? inletPascals * 0.85 * sag * sag : 0,
                (1 + 0.85 * of(Cause.MANIFOLD_HIGH)) * (1 - 0.6 * of(Cause.MANIFOLD_LOW)),
                0.35 * of(Cause.REGULATOR_HUNTING),
                lights);
    }

    /** Flame current that arrives, relative to a clean sensor. */
    double flameSense() {
        return 1 - 0.97 * StrictMath.sqrt(of(Cause.IGNITION_OR_FLAME_SENSE));
    }

    /** To be called when a trial begins: settles whether it will light. */
    void trialBegins() {
        double s = of(Cause.IGNITION_OR_FLAME_SENSE);
        lights = s == 0 || !noise.chance(s);
    }
}
