package draftwitness.furnace;

/** Wind at the terminal and the pressure it makes there. Metres, seconds, pascal. Not thread-safe; one owner. */
final class Weather {
    /** Scale of gusts at a terminal 2 m above the ground, m: low-altitude rule of MIL-F-8785C, carried below 10 ft. */
    static final double GUST_LENGTH_METRES = 15.4;

    private static final double SLOW_SECONDS = 240;
    private static final double TERMINAL_COEFFICIENT = 0.55;

    private final House.Place place;
    private final Gust gust;
    private final Gust slow;
    private final double density;
    private double terminal;

    Weather(House.Place place, Noise gustNoise, Noise slowNoise) {
        this.place = place;
        gust = new Gust(gustNoise);
        slow = new Gust(slowNoise);
        density = Atmosphere.density(
                Atmosphere.pressure(place.altitudeMetres()), place.outdoorCelsius() + Atmosphere.ZERO_CELSIUS);
    }

    /** Moves on; {@code blast} adds wind on the terminal, 0 to 1. */
    void step(double blast, double seconds) {
        double mean = (place.windMetresPerSecond() + 7.5 * blast) * (1 + 0.15 * slow.step(SLOW_SECONDS, seconds));
        double gustiness = place.gustiness() * (1 + 0.3 * blast);
        double along =
                mean <= 0 ? 0 : mean * (1 + gustiness * gust.step(GUST_LENGTH_METRES / Math.max(1, mean), seconds));
        terminal = TERMINAL_COEFFICIENT * 0.5 * density * along * Math.abs(along);
    }

    /** Pressure of the wind on the terminal, Pa. */
    double terminalPascals() {
        return terminal;
    }
}
