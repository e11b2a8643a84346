package draftwitness.furnace;

/**
 * A first-order lag, solved exactly for an input that moves in a straight line during the step: a pressure tube,
 * warming metal, a settling regulator. Not thread-safe; one owner.
 */
final class Lag {
    private double tau = -1;
    private double dt = -1;
    private double keep;
    private double mean;
    private double value;
    private double lastInput;

    Lag(double start) {
        value = start;
        lastInput = start;
    }

    double value() {
        return value;
    }

    /** Sets output and remembered input at once, without a transient. */
    void reset(double to) {
        value = to;
        lastInput = to;
    }

    /**
     * Moves on by {@code seconds}.
     *
     * @param input input at the end of the step; it moved there in a straight line
     * @param timeConstant seconds, above 0
     */
    double step(double input, double timeConstant, double seconds) {
        if (timeConstant != tau || seconds != dt) {
            tau = timeConstant;
            dt = seconds;
            keep = StrictMath.exp(-dt / tau);
            mean = (1 - keep) * tau / dt;
        }
        // For u = u0 + (u1 - u0) t/dt the solution of tau y' + y = u at dt is
        // y0 keep + u1 - u0 keep - (u1 - u0) (tau/dt) (1 - keep).
        value = value * keep + input - lastInput * keep - (input - lastInput) * mean;
        lastInput = input;
        return value;
    }

    /** Moves on by {@code seconds} towards an input that jumped at the start of the step and stays. */
    double stepHeld(double input, double timeConstant, double seconds) {
        lastInput = input;
        return step(input, timeConstant, seconds);
    }
}
