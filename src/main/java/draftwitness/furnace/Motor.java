package draftwitness.furnace;

/**
 * The inducer's motor: torque falls with speed as an induction motor's does, and the wheel's load rises with it.
 *
 * <p>A weak motor pulls less and turns with more friction, and gets weaker as its winding warms. Speed is relative to
 * rated, torque to the design load. Stepped by the midpoint rule. Not thread-safe; one owner.
 */
final class Motor {
    private static final double INERTIA_SECONDS = 3.2;
    private static final double NO_LOAD_SPEED = 1.097;
    private static final double STIFFNESS = 11;
    private static final double MOST_TORQUE = 1.7;
    private static final double FRICTION = 0.12;
    private static final double LOW_SPEED = 0.72;

    private final Lag winding = new Lag(0);
    private double n;

    double speed() {
        return n;
    }

    /**
     * Moves on.
     *
     * @param on whether the control feeds it
     * @param low whether at its low speed
     * @param weak severity of its weakness, 0 to 1
     * @param net the flow it moved last
     */
    void step(boolean on, boolean low, double weak, FlowNetwork net, double seconds) {
        if (!on && n == 0) {
            winding.stepHeld(0, 300, seconds);
            return;
        }
        winding.stepHeld(on ? 1 : 0, 300, seconds);
        double half = n + seconds / 2 * acceleration(n, on, low, weak, net);
        n = Math.max(0, n + seconds * acceleration(half, on, low, weak, net));
        if (!on && n < 1e-3) {
            n = 0;
        }
    }

    private double acceleration(double speed, boolean on, boolean low, double weak, FlowNetwork net) {
        double load = net.fan.torque(net.inducerDensity, speed, net.ventFlow) + FRICTION * (1 + 1.5 * weak);
        if (!on) {
            return -load / INERTIA_SECONDS;
        }
        double ideal = (low ? LOW_SPEED : 1) * NO_LOAD_SPEED * (1 - 0.26 * weak * (1 + 0.35 * winding.value()));
        double most = MOST_TORQUE * (1 - 0.5 * weak);
        double drive = Math.max(0, Math.min(most, STIFFNESS * (ideal - speed)));
        return (drive - load) / INERTIA_SECONDS;
    }
}
