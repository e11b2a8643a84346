package draftwitness.furnace;

/**
 * The law of every narrow place: {@code dp = k (|m| + m0) m / rho}, turbulent, with a touch of linear loss so that its
 * slope is never zero.
 *
 * <p>{@code m} is mass flow in kg/s, signed; {@code dp} in Pa; {@code k} in 1/m4; {@code rho} in kg/m3. Above a gram a
 * second the linear part is under one per cent, and flow goes with the root of the pressure difference. Pure.
 */
final class Restriction {
    /** Flow at which linear and turbulent loss are equal, kg/s. */
    static final double LINEAR_FLOW = 5e-6;

    private Restriction() {}

    /** Pressure lost along the flow, Pa. */
    static double drop(double k, double rho, double m) {
        return k * (Math.abs(m) + LINEAR_FLOW) * m / rho;
    }

    /** Derivative of {@link #drop} by flow, Pa s/kg; above zero. */
    static double dropSlope(double k, double rho, double m) {
        return k * (2 * Math.abs(m) + LINEAR_FLOW) / rho;
    }

    /** Mass flow driven by a pressure difference: the inverse of {@link #drop}. */
    static double flow(double k, double rho, double dp) {
        double root = Math.sqrt(LINEAR_FLOW * LINEAR_FLOW / 4 + rho * Math.abs(dp) / k);
        return Math.copySign(root - LINEAR_FLOW / 2, dp);
    }

    /** Loss coefficient that lets a flow through at a pressure difference. */
    static double ofDesign(double dp, double m, double rho) {
        return dp * rho / (m * m);
    }
}
