package draftwitness.furnace;

/**
 * The flue side as a chain of restrictions, solved for the pressures at its nodes.
 *
 * <pre>
 * intake -- burner box -- burner + primary exchanger -- collector -- secondary exchanger -- inducer port
 *                             ^ gas, expansion           ^ drain leak, breach                |
 *                                                                           fan -- vent base -- terminal
 * </pre>
 *
 * <p>How it works: the air flow through the burner is the one unknown. Every pressure and flow downstream follows from
 * it; what is left over at the terminal is the residual, which rises steadily with that flow, so Newton's rule with the
 * exact slope finds its zero in two or three steps from the last solution. Mass is conserved at each node by
 * construction, and the tests count it again from the pressures alone.
 *
 * <p>Inputs are the plain fields above {@link #solve}; results the ones below. Gauge pressures in Pa against room air,
 * mass flows in kg/s along the flow, densities in kg/m3. Not thread-safe; one owner.
 */
final class FlowNetwork {
    /** Residual at which the solution is good, Pa. */
    private static final double TOLERANCE_PASCALS = 1e-11;

    private static final int MAX_STEPS = 60;

    final Fan fan;

    double intakeLoss;
    double burnerLoss;
    double primaryLoss;
    double secondaryLoss;
    double ventLoss;
    /** Loss coefficient of the air leak into the collector; infinite for none. */
    double drainLeakLoss = Double.POSITIVE_INFINITY;
    /** Loss coefficient of the breach between air side and collector; infinite for none. */
    double breachLoss = Double.POSITIVE_INFINITY;

    double airDensity = 1.2;
    double primaryDensity = 1.2;
    double secondaryDensity = 1.2;
    double inducerDensity = 1.2;
    double ventDensity = 1.2;
    double roomDensity = 1.2;

    double gasFlow;
    double expansionFlow;
    double fanSpeed;
    /** Relative disturbance of the fan's pressure: turbulence. */
    double fanDisturbance;

    double intakePascals;
    double terminalPascals;
    /** Stack draft of the vent, Pa, positive when it pulls. */
    double buoyancyPascals;
    /** Pressure of the air side around the exchanger, Pa. */
    double airSidePascals;

    double burnerBox;
    double collector;
    double inducer;
    double ventBase;
    double airFlow;
    double drainFlow;
    double breachFlow;
    double secondaryFlow;
    double ventFlow;

    FlowNetwork(Fan fan) {
        this.fan = fan;
    }

    /** Solves for the nodes, starting from the last solution. */
    void solve() {
        double m = airFlow;
        double low = -1;
        double high = 1;
        for (int i = 0; i < MAX_STEPS; i++) {
            double residual = evaluate(m);
            if (Math.abs(residual) < TOLERANCE_PASCALS) {
                return;
            }
            if (residual > 0) {
                high = Math.min(high, m);
            } else {
                low = Math.max(low, m);
            }
            double next = m - residual / slope;
            m = next > low && next < high ? next : (low + high) / 2;
        }
        evaluate(m);
    }

    private double slope;

    /** Sets all nodes for one burner flow and gives the pressure left over at the terminal; rises with {@code m}. */
    private double evaluate(double m) {
        airFlow = m;
        burnerBox = intakePascals - Restriction.drop(intakeLoss, airDensity, m);
        collector = burnerBox
                - Restriction.drop(burnerLoss, airDensity, m)
                - Restriction.drop(primaryLoss, primaryDensity, m);
        double collectorSlope = -Restriction.dropSlope(intakeLoss + burnerLoss, airDensity, m)
                - Restriction.dropSlope(primaryLoss, primaryDensity, m);
        drainFlow = leak(drainLeakLoss, -collector);
        breachFlow = leak(breachLoss, airSidePascals - collector);
        secondaryFlow = m + gasFlow + expansionFlow + drainFlow + breachFlow;
        double flowSlope =
                1 - collectorSlope * (leakSlope(drainLeakLoss, drainFlow) + leakSlope(breachLoss, breachFlow));
        inducer = collector - Restriction.drop(secondaryLoss, secondaryDensity, secondaryFlow);
        ventFlow = secondaryFlow;
        double rise = fan.rise(inducerDensity, fanSpeed, ventFlow) * (1 + fanDisturbance);
        ventBase = inducer + rise;
        double atTerminal = ventBase - Restriction.drop(ventLoss, ventDensity, ventFlow) + buoyancyPascals;
        slope = -collectorSlope
                + flowSlope
                        * (Restriction.dropSlope(secondaryLoss, secondaryDensity, secondaryFlow)
                                - fan.riseSlope(inducerDensity, ventFlow) * (1 + fanDisturbance)
                                + Restriction.dropSlope(ventLoss, ventDensity, ventFlow));
        return terminalPascals - atTerminal;
    }

    private double leak(double loss, double dp) {
        return loss == Double.POSITIVE_INFINITY ? 0 : Restriction.flow(loss, roomDensity, dp);
    }

    private double leakSlope(double loss, double flow) {
        return loss == Double.POSITIVE_INFINITY ? 0 : 1 / Restriction.dropSlope(loss, roomDensity, flow);
    }
}
