package draftwitness.furnace;

/** The standard atmosphere's troposphere and the ideal gas law for dry air. Pure. Kelvin, pascal, kg/m3, metres. */
final class Atmosphere {
    /** Specific gas constant of dry air, J/(kg K), ISO 2533:1975. */
    static final double GAS_CONSTANT = 287.05287;

    /** Standard acceleration of gravity, m/s2, ISO 2533:1975. */
    static final double GRAVITY = 9.80665;

    /** Pressure at sea level, Pa, ISO 2533:1975. */
    static final double SEA_LEVEL_PASCALS = 101_325;

    static final double ZERO_CELSIUS = 273.15;

    private static final double SEA_LEVEL_KELVIN = 288.15;
    private static final double LAPSE_KELVIN_PER_METRE = 0.0065;

    private Atmosphere() {}

    /** Standard temperature at a geopotential altitude up to 11 000 m, K. */
    static double temperature(double metres) {
        return SEA_LEVEL_KELVIN - LAPSE_KELVIN_PER_METRE * metres;
    }

    /** Standard pressure at a geopotential altitude up to 11 000 m, Pa. */
    static double pressure(double metres) {
        double exponent = GRAVITY / (LAPSE_KELVIN_PER_METRE * GAS_CONSTANT);
        return SEA_LEVEL_PASCALS * StrictMath.pow(temperature(metres) / SEA_LEVEL_KELVIN, exponent);
    }

    /** Density of dry air, kg/m3. */
    static double density(double pascals, double kelvin) {
        return pascals / (GAS_CONSTANT * kelvin);
    }

    /** Draft of a column of lighter gas, Pa: {@code g H (rho - rhoGas)}; positive when it pulls upwards. */
    static double stackDraft(double heightMetres, double airDensity, double gasDensity) {
        return GRAVITY * heightMetres * (airDensity - gasDensity);
    }
}
