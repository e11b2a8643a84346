package draftwitness.furnace;

/**
 * Water in a low spot of the vent: a liquid column that swings between the two rising ends of the pipe, and narrows the
 * way for the gas as it does.
 *
 * <p>How it works: a column of total length {@code L} swings at {@code f = sqrt(2g/L)/(2 pi)}, the U-tube of every
 * physics text. Slow gas lets the swing die out. Where the gas in the remaining gap is faster than about 6.5 m/s it
 * raises waves on water (the Kelvin-Helmholtz onset for air over water; from memory) and feeds the swing, until the
 * swing is as large as the pool allows. The water fills part of the bore; what is left passes the gas at the loss of a
 * sudden contraction and enlargement. The linear swing is stepped exactly, the feeding by a kick at mid-step.
 *
 * <p>Metres, seconds, kg. Not thread-safe; one owner.
 */
final class Slug {
    private static final double BORE_METRES = 0.050;
    private static final double BORE_AREA = StrictMath.PI * BORE_METRES * BORE_METRES / 4;
    private static final double ONSET_METRES_PER_SECOND = 6.5;
    private static final double DAMPING = 0.04;
    private static final double MOST_BLOCKED = 0.90;

    private final double omega;
    private double x;
    private double v;
    private double fill;
    private double swingSeconds = -1;
    private double cosine;
    private double sine;

    /** @param columnMetres total length of the water column */
    Slug(double columnMetres) {
        omega = Math.sqrt(2 * Atmosphere.GRAVITY / columnMetres);
    }

    /** Share of the bore under water at rest, 0 to 0.85. */
    double fill() {
        return fill;
    }

    void fillTo(double share) {
        fill = Math.max(0, Math.min(0.85, share));
    }

    double displacement() {
        return x;
    }

    /** Starts the swing by hand. */
    void displace(double metres) {
        x = metres;
        v = 0;
    }

    /**
     * Moves on.
     *
     * @param flow gas through the vent, kg/s
     * @param density of that gas, kg/m3
     * @param push random push from the turbulent gas, m/s2
     */
    void step(double flow, double density, double push, double seconds) {
        if (fill <= 0.01 && x == 0 && v == 0) {
            return;
        }
        swing(seconds / 2);
        double gap = 1 - blocked();
        double excess = Math.abs(flow) / (density * BORE_AREA * gap) / ONSET_METRES_PER_SECOND - 1;
        double limit = 0.2 * BORE_METRES * Math.min(fill, 1 - fill) + 1e-4;
        double feed = Math.max(0, Math.min(0.12, 0.2 * excess)) * (1 - x * x / (limit * limit));
        v = v * StrictMath.exp(2 * omega * Math.max(-1, feed - DAMPING) * seconds) + push * seconds;
        swing(seconds / 2);
    }

    private void swing(double seconds) {
        if (seconds != swingSeconds) {
            swingSeconds = seconds;
            cosine = StrictMath.cos(omega * seconds);
            sine = StrictMath.sin(omega * seconds);
        }
        double nx = x * cosine + v / omega * sine;
        v = v * cosine - x * omega * sine;
        x = nx;
    }

    /** Share of the bore closed to the gas now. */
    double blocked() {
        return Math.max(0, Math.min(MOST_BLOCKED, fill + x / BORE_METRES));
    }

    /** Loss coefficient of the narrowed bore, 1/m4, as {@link Restriction} takes it. */
    double loss() {
        double b = blocked();
        double ratio = b / (1 - b);
        return ratio * ratio / (2 * BORE_AREA * BORE_AREA);
    }
}
