package draftwitness.furnace;

/**
 * The pressure tube from a port to a diaphragm: a small flow through the tube fills a small volume, and what leaks
 * there comes from the room.
 *
 * <p>Flows in it are slow and laminar, so conductance is constant: with tube conductance {@code G} and leak {@code g},
 * both relative to a clean tube, the diaphragm sees {@code G/(G + g)} of the port with time constant {@code tau0/(G +
 * g)}. A kink or a drop of water lowers {@code G}: late with a tight diaphragm, late and low with a leaking one.
 * Pascal, seconds. Not thread-safe; one owner.
 */
final class Tube {
    /** Time constant of a clean tube with its diaphragm, s (typical, from memory). */
    static final double CLEAN_SECONDS = 0.06;

    /** What the tightest diaphragm still lets through. */
    private static final double SEEP = 5e-5;

    private final Lag lag = new Lag(0);

    /** Pressure at the diaphragm. */
    double value() {
        return lag.value();
    }

    /** Conductance of a tube by severity of its blockage: 1 clean, a millionth when shut. */
    static double conductance(double blocked) {
        return blocked > 0.9 ? 1e-6 : CLEAN_SECONDS / (CLEAN_SECONDS + 8 * blocked * blocked);
    }

    /** Leak by severity: takes half of the pressure of a clean tube at 1. */
    static double leak(double severity) {
        return 1 / (1 - 0.5 * severity) - 1;
    }

    /**
     * Moves on.
     *
     * @param port pressure at the port at the end of the step
     * @param conductance of the tube, relative to a clean one
     * @param leak conductance of the leak, relative to a clean tube
     */
    void step(double port, double conductance, double leak, double seconds) {
        double sum = conductance + leak + SEEP;
        lag.step(port * conductance / sum, CLEAN_SECONDS / sum, seconds);
    }
}
