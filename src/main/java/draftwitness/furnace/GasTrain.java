package draftwitness.furnace;

/**
 * Gas from the supply line through regulator and valve to the burner orifices, with its flame.
 *
 * <p>Orifice flow goes with the root of the pressure difference between manifold and burner box. The regulator holds
 * its setting while the inlet allows; below that the manifold follows the inlet. Pascal, kg/s, seconds. Not
 * thread-safe.
 */
final class GasTrain {
    /** Firing at the rated manifold pressure with natural gas, kg/s: about 20 kW at 50 MJ/kg. */
    static final double DESIGN_FLOW = 4.0e-4;

    private static final double REGULATOR_SECONDS = 0.12;
    private static final double LINE_SECONDS = 0.08;
    private static final double IGNITION_DELAY_SECONDS = 0.6;
    private static final double IGNITION_SECONDS = 0.25;
    private static final double EXTINCTION_SECONDS = 0.5;
    private static final double HUNTING_HERTZ = 0.7;

    private final House.GasRating rating;
    private final Lag manifoldLag = new Lag(0);
    private final Lag inletLag;
    private final Lag flameLag = new Lag(0);
    private double gasSeconds;
    private boolean lit;
    private double huntingPhase;
    private double flow;

    GasTrain(House.GasRating rating) {
        this.rating = rating;
        inletLag = new Lag(rating.inletPascals());
    }

    /** Mass flow relative to the design flow at rated pressure; the firing rate while the flame burns. */
    double rate() {
        return flow / DESIGN_FLOW;
    }

    double flow() {
        return flow;
    }

    double manifold() {
        return manifoldLag.value();
    }

    double inlet() {
        return inletLag.value();
    }

    /** Flame, 0 to 1. */
    double flame() {
        return flameLag.value();
    }

    /**
     * Moves on.
     *
     * @param valve whether the valve is open
     * @param lowFire whether at the low stage
     * @param spark whether the igniter is hot
     * @param burnerBox pressure there, Pa
     * @param faults what is wrong with the gas side
     */
    void step(boolean valve, boolean lowFire, boolean spark, double burnerBox, GasFaults faults, double seconds) {
        double used = rate() * rate();
        double supply = rating.inletPascals() * (1 - faults.lineLoss() * used - 0.04 * used) - faults.otherAppliances();
        inletLag.stepHeld(Math.max(0, supply), LINE_SECONDS, seconds);
        double set = (lowFire ? rating.lowFirePascals() : rating.manifoldPascals()) * faults.setting();
        huntingPhase += 2 * StrictMath.PI * HUNTING_HERTZ * seconds;
        if (faults.hunting() > 0) {
            set *= 1 + faults.hunting() * StrictMath.sin(huntingPhase);
        }
        double target = valve ? Math.min(set, 0.92 * inletLag.value()) : burnerBox;
        manifoldLag.stepHeld(target, REGULATOR_SECONDS, seconds);
        double dp = manifoldLag.value() - burnerBox;
        flow = valve ? DESIGN_FLOW * Math.sqrt(Math.max(0, dp) / rating.manifoldPascals()) : 0;
        burn(valve, spark, faults, seconds);
    }

    private void burn(boolean valve, boolean spark, GasFaults faults, double seconds) {
        boolean burnable = valve && manifoldLag.value() > 0.38 * rating.manifoldPascals();
        gasSeconds = burnable ? gasSeconds + seconds : 0;
        if (!burnable) {
            lit = false;
        } else if (!lit && spark && faults.lights() && gasSeconds >= IGNITION_DELAY_SECONDS) {
            lit = true;
        }
        flameLag.stepHeld(lit ? 1 : 0, lit ? IGNITION_SECONDS : EXTINCTION_SECONDS, seconds);
    }

    /**
     * What is wrong with the gas side now.
     *
     * @param lineLoss extra share of the supply lost in the line at design flow
     * @param otherAppliances pressure that other appliances take away, Pa
     * @param setting regulator setting relative to the plate
     * @param hunting amplitude of the regulator's swing, relative
     * @param lights whether the next trial will light
     */
    record GasFaults(double lineLoss, double otherAppliances, double setting, double hunting, boolean lights) {}
}
