package draftwitness.furnace;

/**
 * Makes each seed a house of its own within what is normal: no two furnaces of one model pull alike, and no switch
 * makes exactly at its set point. Pure.
 */
final class Variety {
    private static final double INDUCER = 0.03;
    private static final double VENT = 0.10;
    private static final double COLUMN = 0.15;
    private static final double SWITCH_IN_TOLERANCES = 0.4;

    private Variety() {}

    /** The house of a seed; the ratings on its plate stay. */
    static House of(House h, long seed) {
        double v = h.variety();
        if (v == 0) {
            return h;
        }
        Noise noise = Noise.of(seed, "variety");
        House.FlueSide f = h.flue();
        House.FlueSide flue = new House.FlueSide(
                f.pipes(),
                f.switchAtCollector(),
                f.strength() * (1 + v * INDUCER * within(noise)),
                f.ventFactor() * (1 + v * VENT * within(noise)),
                f.columnMetres() * (1 + v * COLUMN * within(noise)),
                f.stages());
        House.SwitchRating r = h.rating();
        double error = v * r.tolerancePascals() * Math.max(-1, Math.min(1, SWITCH_IN_TOLERANCES * within(noise)));
        House.SwitchRating rating = new House.SwitchRating(
                r.makePascals() + error, r.differentialPascals(), r.tolerancePascals(), r.againstBurnerBox());
        return h.with(flue, rating);
    }

    /** A normal number, held within two and a half. */
    private static double within(Noise noise) {
        return Math.max(-2.5, Math.min(2.5, noise.gaussian()));
    }
}
