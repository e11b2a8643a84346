package draftwitness.furnace;

/**
 * The inducer's wheel: pressure rise and shaft load by volume flow, speed and density.
 *
 * <p>{@code p = (rho/rho0) (P0 n^2 - c Q|Q|)} with relative speed {@code n}, which obeys the fan laws: flow goes with
 * speed, pressure with its square, power with its cube, and pressure and power with density. Pure.
 *
 * @param shutOffPascals pressure at rated speed, reference density and no flow, Pa
 * @param flowLoss {@code c}, Pa s2/m6
 */
record Fan(double shutOffPascals, double flowLoss) {
    /** Density at which {@link #shutOffPascals} holds, kg/m3. */
    static final double REFERENCE_DENSITY = 1.2;

    /** Volume flow of the design point, m3/s; load is given relative to it. */
    static final double DESIGN_FLOW = 0.010;

    /** An inducer of a furnace of about 20 kW; the figures are typical, from memory. */
    static Fan usual() {
        return new Fan(470, 5.0e5);
    }

    /** Pressure rise, Pa. */
    double rise(double rho, double n, double mass) {
        double q = mass / rho;
        return rho / REFERENCE_DENSITY * (shutOffPascals * n * n - flowLoss * q * Math.abs(q));
    }

    /** Derivative of {@link #rise} by mass flow; not above zero. */
    double riseSlope(double rho, double mass) {
        return -2 * flowLoss * Math.abs(mass) / (rho * REFERENCE_DENSITY);
    }

    /** Shaft torque relative to the design point; half of it is there without flow. */
    double torque(double rho, double n, double mass) {
        double q = Math.max(0, mass / rho / DESIGN_FLOW);
        return rho / REFERENCE_DENSITY * n * (0.5 * n + 0.5 * q);
    }

    /** Shaft power relative to the design point. */
    double power(double rho, double n, double mass) {
        return torque(rho, n, mass) * n;
    }
}
