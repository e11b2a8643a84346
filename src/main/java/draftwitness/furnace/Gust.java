package draftwitness.furnace;

/**
 * Noise with the Dryden along-wind spectrum: white noise through a first-order filter.
 *
 * <p>MIL-F-8785C (1980) 3.7: one-sided spatial spectrum {@code s^2 (2L/pi) / (1 + (L w)^2)}. Carried past a fixed place
 * at speed {@code V} it is the spectrum of a first-order process with time constant {@code L/V}, which is stepped here
 * exactly. Also used, with other time constants, for turbulence and slow changes. Not thread-safe; one owner.
 */
final class Gust {
    private final Noise noise;
    private double value;
    private double tau = -1;
    private double dt = -1;
    private double keep;
    private double kick;

    Gust(Noise noise) {
        this.noise = noise;
        this.value = noise.gaussian();
    }

    /**
     * The spectrum of the quoted standard at spatial frequency {@code omega}, rad/m; its integral is {@code sigma^2}.
     */
    static double spectrum(double sigma, double length, double omega) {
        double lw = length * omega;
        return sigma * sigma * 2 * length / StrictMath.PI / (1 + lw * lw);
    }

    /** Moves on and gives the new value, standard deviation 1. */
    double step(double timeConstant, double seconds) {
        if (timeConstant != tau || seconds != dt) {
            tau = timeConstant;
            dt = seconds;
            keep = StrictMath.exp(-dt / tau);
            kick = Math.sqrt(1 - keep * keep);
        }
        value = value * keep + kick * noise.gaussian();
        return value;
    }

    double value() {
        return value;
    }
}
